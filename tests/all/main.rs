mod rules;
