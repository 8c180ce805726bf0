mod checked;
mod court;
mod limits;
mod practice;
mod reference;
mod rules;
mod server;
