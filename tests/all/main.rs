mod limits;
mod reference;
mod rules;
