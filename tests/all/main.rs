mod limits;
mod reference;
mod rules;
mod server;
