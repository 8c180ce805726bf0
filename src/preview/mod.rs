//! The page that follows a spec, on the loopback address.
//!
//! The room listens there and nowhere else, lets in whoever asks for the page
//! by its own name, and watches the files that the page is made from. What the
//! page shows it is given. Only this room names the crates for HTTP and for
//! watching files, and with `server` the runtime.

mod door;
mod serve;
mod watching;

use std::collections::BTreeSet;
use std::io;
use std::net::{Ipv4Addr, SocketAddr, TcpListener};

use serde_json::Value;
use tokio::sync::watch;

use door::Door;
use watching::Watching;

/// What the page is made of. The rest it asks for by `/page.css`, `/page.js`
/// and `/events`.
pub struct Page {
    /// The page.
    pub html: String,
    /// Its style.
    pub style: String,
    /// Its script.
    pub script: String,
}

/// What there is to show at the moment.
pub enum Look {
    /// The job, as one line of JSON.
    Job(String),
    /// Why there is none, in words; what was shown last stays.
    Trouble(String),
}

/// A place to listen at.
pub struct House {
    listener: TcpListener,
    address: SocketAddr,
}

impl House {
    /// Takes a port of the loopback address; 0 takes one that is free.
    ///
    /// # Errors
    /// Where the port is taken, or may not be.
    pub fn open(port: u16) -> io::Result<House> {
        let listener = TcpListener::bind((Ipv4Addr::LOCALHOST, port))?;
        listener.set_nonblocking(true)?;
        let address = listener.local_addr()?;
        Ok(House { listener, address })
    }

    /// Where the page is.
    pub fn address(&self) -> String {
        format!("http://{}/", self.address)
    }

    /// Shows the page, and looks again whenever one of the files changed that
    /// the last look read or looked for; `spec` always. It ends with the
    /// program.
    ///
    /// # Errors
    /// Where the folder of the spec cannot be watched or no thread is started.
    pub fn show(
        self,
        page: Page,
        spec: &str,
        mut look: impl FnMut() -> (Look, Vec<String>),
    ) -> io::Result<()> {
        let mut watching = Watching::of(spec)?;
        let (tell, reported) = watch::channel(String::new());
        let door = Door::at(self.address.port());
        let listener = self.listener;
        std::thread::Builder::new()
            .name("preview".to_owned())
            .spawn(move || serve::serve(listener, page, door, reported))?;
        loop {
            let (seen, reads) = look();
            let event = event(&seen);
            tell.send_if_modified(|last| {
                let is_new = *last != event;
                *last = event;
                is_new
            });
            let reads: BTreeSet<String> = reads.into_iter().collect();
            // What changed before it was watched is seen by another look.
            if !watching.turn_to(reads) {
                watching.wait()?;
            }
        }
    }
}

/// A look as the page hears of it.
fn event(look: &Look) -> String {
    match look {
        Look::Job(job) => format!("event: job\ndata: {job}\n\n"),
        Look::Trouble(why) => format!("event: trouble\ndata: {}\n\n", Value::from(why.as_str())),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn it_listens_on_the_loopback_address_alone() {
        let house = House::open(0).expect("a port");
        assert!(house.address.ip().is_loopback());
        assert_eq!(house.address(), format!("http://{}/", house.address));
        assert!(House::open(house.address.port()).is_err(), "it is taken");
    }

    #[test]
    fn what_is_told_is_one_event() {
        let trouble = event(&Look::Trouble("gone\n\nevent: job".to_owned()));
        assert_eq!(trouble.matches("\n\n").count(), 1, "{trouble}");
        assert!(event(&Look::Job("{}".to_owned())).starts_with("event: job\ndata: {}"));
    }
}
