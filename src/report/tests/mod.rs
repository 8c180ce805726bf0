//! What is held of the whole room.

mod schemas;
