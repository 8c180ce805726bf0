mod limits;
mod rules;
