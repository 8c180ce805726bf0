//! The program `drylay`.

fn main() {
    std::process::exit(drylay::server::serve())
}
