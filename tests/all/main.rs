mod checked;
mod court;
mod limits;
mod reference;
mod rules;
mod server;
