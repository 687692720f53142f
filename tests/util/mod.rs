//! Helpers of the tests: a folder of their own, and the program run in it.

#![allow(dead_code, reason = "each test file uses the helpers that it needs")]
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::disallowed_methods,
    reason = "a test may fail, and looks at files itself"
)]

pub(crate) mod killing;
pub(crate) mod terminal;
pub(crate) mod watching;

use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Command, Output, Stdio};

/// A folder that is gone when the test ends.
pub(crate) struct Folder {
    temp: tempfile::TempDir,
}

impl Folder {
    /// An empty folder.
    #[track_caller]
    pub(crate) fn empty() -> Self {
        Self {
            temp: tempfile::tempdir().unwrap(),
        }
    }

    /// Its path.
    pub(crate) fn path(&self) -> &Path {
        self.temp.path()
    }

    /// Writes a file in it, with the folders above.
    #[track_caller]
    pub(crate) fn file(self, name: &str, text: impl AsRef<[u8]>) -> Self {
        let path = self.path().join(name);
        fs::create_dir_all(path.parent().unwrap()).unwrap();
        fs::write(path, text).unwrap();
        self
    }

    /// Reads a file of it.
    #[track_caller]
    pub(crate) fn read(&self, name: &str) -> String {
        fs::read_to_string(self.path().join(name)).unwrap()
    }

    /// Runs the program in it.
    #[track_caller]
    pub(crate) fn run(&self, arguments: &[&str]) -> Run {
        self.run_with(arguments, "")
    }

    /// Runs the program in it with something on standard input.
    #[track_caller]
    pub(crate) fn run_with(&self, arguments: &[&str], input: impl AsRef<[u8]>) -> Run {
        use std::io::Write;
        let mut child = program()
            .args(arguments)
            .current_dir(self.path())
            .stdin(Stdio::piped())
            .stdout(Stdio::piped())
            .stderr(Stdio::piped())
            .spawn()
            .unwrap();
        // A program that ends early closes its end; that is for the caller to judge.
        let _ = child.stdin.take().unwrap().write_all(input.as_ref());
        Run {
            output: child.wait_with_output().unwrap(),
            arguments: arguments.join(" "),
        }
    }
}

/// The program, in a plain environment.
pub(crate) fn program() -> Command {
    let mut command = Command::new(env!("CARGO_BIN_EXE_faceside"));
    command
        .env_remove("FACESIDE_SHOP")
        .env_remove("COLUMNS")
        .env("NO_COLOR", "1");
    command
}

/// What a run of the program gave.
pub(crate) struct Run {
    output: Output,
    arguments: String,
}

impl Run {
    /// Fails the test unless the program ended with this code.
    #[track_caller]
    pub(crate) fn code(&self, code: i32) -> &Self {
        let is = self.output.status.code();
        assert_eq!(
            is,
            Some(code),
            "faceside {}\n{}\n{}",
            self.arguments,
            self.out(),
            self.err()
        );
        self
    }

    /// The exit code; 256 when a signal ended it.
    pub(crate) fn exit(&self) -> i32 {
        self.output.status.code().unwrap_or(256)
    }

    /// Standard output.
    pub(crate) fn out(&self) -> String {
        String::from_utf8_lossy(&self.output.stdout).into_owned()
    }

    /// Standard error.
    pub(crate) fn err(&self) -> String {
        String::from_utf8_lossy(&self.output.stderr).into_owned()
    }

    /// Fails the test unless standard output holds this.
    #[track_caller]
    pub(crate) fn says(&self, words: &str) -> &Self {
        assert!(
            self.out().contains(words),
            "no `{words}` in:\n{}",
            self.out()
        );
        self
    }

    /// Fails the test unless standard error holds this.
    #[track_caller]
    pub(crate) fn complains(&self, words: &str) -> &Self {
        assert!(
            self.err().contains(words),
            "no `{words}` in:\n{}",
            self.err()
        );
        self
    }

    /// Standard output as JSON.
    #[track_caller]
    pub(crate) fn json(&self) -> serde_json::Value {
        serde_json::from_str(&self.out()).unwrap()
    }
}

/// The folder of the repository.
pub(crate) fn here() -> PathBuf {
    PathBuf::from(env!("CARGO_MANIFEST_DIR"))
}

/// The folder in which `npm install` has put the packages that drive and check a browser.
#[track_caller]
pub(crate) fn packages() -> PathBuf {
    let named = std::env::var_os("FACESIDE_NODE").map(PathBuf::from);
    let home = std::env::var_os("HOME").map(PathBuf::from);
    let folder = named.unwrap_or_else(|| home.unwrap_or_default().join(".cache/faceside-node"));
    for package in ["playwright-core", "axe-core", "vnu-jar"] {
        assert!(
            folder.join("node_modules").join(package).exists(),
            "the npm package `{package}` is missing: `.ci/run` installs it, or `npm install \
             --prefix {} playwright-core axe-core vnu-jar`",
            folder.display()
        );
    }
    folder
}

/// A shop folder with the demo's files.
pub(crate) fn demo_shop() -> Folder {
    let mut folder = Folder::empty();
    for name in [
        "shop.yaml",
        "machines.yaml",
        "cutters.yaml",
        "people.yaml",
        "jobs/boathouse-lockers.yaml",
    ] {
        let text = fs::read_to_string(here().join("procedures/shop").join(name)).unwrap();
        folder = folder.file(name, text);
    }
    folder
}
