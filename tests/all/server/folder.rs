//! A folder of specs that a client has open.

use std::fs;
use std::path::PathBuf;

use serde_json::{Value, json};

use super::address;
use super::client::Client;

/// A folder with files, and its address.
pub struct Folder {
    folder: tempfile::TempDir,
}

impl Folder {
    /// A folder with these files.
    pub fn with(files: &[(&str, &str)]) -> Folder {
        let folder = tempfile::tempdir().expect("a folder for the test");
        let folder = Folder { folder };
        files
            .iter()
            .for_each(|(name, text)| folder.write(name, text));
        folder
    }

    /// Where a file lies.
    pub fn path(&self, name: &str) -> PathBuf {
        self.folder.path().join(name)
    }

    /// Writes a file.
    pub fn write(&self, name: &str, text: &str) {
        let path = self.path(name);
        fs::create_dir_all(path.parent().unwrap()).unwrap();
        fs::write(path, text).unwrap();
    }

    /// The address of a file; that of the folder for an empty name.
    pub fn uri(&self, name: &str) -> String {
        address(self.folder.path(), name)
            .trim_end_matches('/')
            .to_owned()
    }

    /// A client that has this folder open.
    pub fn client(&self, capabilities: Value) -> Client {
        let mut client = Client::start();
        let root = json!({"uri": self.uri(""), "name": "jobs"});
        client.initialize(json!({"capabilities": capabilities, "workspaceFolders": [root]}));
        client
    }

    /// Tells the client's server that files have changed.
    pub fn changed(&self, client: &mut Client, names: &[&str]) {
        let events = names
            .iter()
            .map(|name| json!({"uri": self.uri(name), "type": 2}));
        let events = json!({"changes": events.collect::<Vec<_>>()});
        client.tell("workspace/didChangeWatchedFiles", events);
    }
}
