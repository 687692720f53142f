//! The built pages on an address of this machine, for one who writes them and looks.
//!
//! Listens on 127.0.0.1, so that no other machine reaches it, and answers one request a
//! connection. What else runs in the same browser is kept out: a name that leads here by a trick
//! (`request`), a script or a frame on a page elsewhere (the answer's own head). Nothing is stored
//! by the browser, since a page may be another one a moment later.
//!
//! Every page gets one script more (`site/static/reload.js`), which holds a stream of events open
//! and loads the page again when the stream tells of other pages than the one that it came with.

use std::io::{self, Write};
use std::net::{Ipv4Addr, SocketAddr, TcpListener, TcpStream};
use std::path::{Path, PathBuf};
use std::sync::atomic::{AtomicUsize, Ordering};
use std::sync::{Arc, Condvar, Mutex, PoisonError};
use std::thread;
use std::time::Duration;

use super::request::{Asked, Refused, read};
use super::served::{content_type, file, with_script};
use crate::diag::{Code, Fault};

/// Paths that no page has: ids and names of folders begin with a letter or a digit.
const SCRIPT: &str = "-/reload.js";
const EVENTS: &str = "-/changes";

const RELOAD: &str = include_str!("../../site/static/reload.js");

/// Most connections at once; a browser holds six.
const MOST: usize = 64;

/// How long a browser may keep one read or write waiting.
const PATIENCE: Duration = Duration::from_secs(5);

/// How often a stream without news says that it is there, and so learns that nobody reads it.
const PULSE: Duration = Duration::from_secs(10);

/// The running server; it ends with the program.
#[derive(Debug)]
pub struct Server {
    address: SocketAddr,
    site: Arc<Site>,
}

/// What the connections share.
#[derive(Debug)]
struct Site {
    folder: PathBuf,
    /// How often the pages have changed since the program began.
    changes: Mutex<u64>,
    changed: Condvar,
    open: AtomicUsize,
}

impl Server {
    /// Serves the files of a folder, which may be made later; the system chooses port 0.
    ///
    /// # Errors
    /// `address-taken` when the port cannot be had.
    pub fn begin(folder: &Path, port: u16) -> Result<Self, Fault> {
        let site = Arc::new(Site {
            folder: folder.to_owned(),
            changes: Mutex::new(0),
            changed: Condvar::new(),
            open: AtomicUsize::new(0),
        });
        let shared = Arc::clone(&site);
        let begin = || -> io::Result<SocketAddr> {
            let listener = TcpListener::bind((Ipv4Addr::LOCALHOST, port))?;
            let address = listener.local_addr()?;
            let listen = move || {
                listener
                    .incoming()
                    .flatten()
                    .for_each(|one| meet(&shared, one))
            };
            thread::Builder::new().spawn(listen)?;
            Ok(address)
        };
        let address = begin().map_err(|error| {
            let message = format!("the pages cannot be served at 127.0.0.1:{port}: {error}");
            Fault::error(Code::ADDRESS_TAKEN, message)
                .hint("leave `--port` out for one that is free, or name another")
        })?;
        Ok(Self { address, site })
    }

    /// The address of the first page.
    pub fn address(&self) -> String {
        format!("http://{}/", self.address)
    }

    /// Tells every open page that the pages are others now.
    pub fn changed(&self) {
        *self.site.lock() += 1;
        self.site.changed.notify_all();
    }
}

impl Site {
    fn lock(&self) -> std::sync::MutexGuard<'_, u64> {
        self.changes.lock().unwrap_or_else(PoisonError::into_inner)
    }

    /// The pages of this moment, by a name that no other run of the program gives.
    fn version(&self, changes: u64) -> String {
        format!("{}-{changes}", std::process::id())
    }
}

/// Answers a connection on a thread of its own.
fn meet(site: &Arc<Site>, stream: TcpStream) {
    let open = Open(Arc::clone(site));
    if site.open.fetch_add(1, Ordering::SeqCst) < MOST {
        // A browser that has gone is no fault; where no thread can be had, it asks again.
        let _ = thread::Builder::new().spawn(move || answer(&open.0, stream));
    }
}

/// An open connection, counted until it ends.
struct Open(Arc<Site>);

impl Drop for Open {
    fn drop(&mut self) {
        self.0.open.fetch_sub(1, Ordering::SeqCst);
    }
}

fn answer(site: &Site, mut stream: TcpStream) -> io::Result<()> {
    stream.set_read_timeout(Some(PATIENCE))?;
    stream.set_write_timeout(Some(PATIENCE))?;
    let asked = match read(&mut stream) {
        Ok(asked) => asked,
        Err(refused) => return refuse(&mut stream, refused, false),
    };
    // The pages may change while one is read: it is then loaded once too often, never too rarely.
    let version = site.version(*site.lock());
    let path = if asked.path.is_empty() {
        "index.html"
    } else {
        &asked.path
    };
    match path {
        EVENTS if !asked.head_only => events(site, &mut stream),
        SCRIPT => send(&mut stream, &asked, content_type(path), RELOAD.as_bytes()),
        _ => match file(&site.folder, path) {
            Ok(bytes) => {
                let kind = content_type(path);
                let is_page = kind.starts_with("text/html");
                let script = format!("/{SCRIPT}?at={version}");
                let bytes = if is_page {
                    with_script(bytes, &script)
                } else {
                    bytes
                };
                send(&mut stream, &asked, kind, &bytes)
            }
            Err(_) => refuse(&mut stream, (404, "Not Found"), asked.head_only),
        },
    }
}

/// The lines that every answer begins with.
fn head((status, words): Refused, kind: &str) -> String {
    let allow = if status == 405 {
        "Allow: GET, HEAD\r\n"
    } else {
        ""
    };
    format!(
        "HTTP/1.1 {status} {words}\r\nContent-Type: {kind}\r\n{allow}Cache-Control: no-store\r\n\
         X-Content-Type-Options: nosniff\r\nCross-Origin-Resource-Policy: same-origin\r\n\
         Content-Security-Policy: frame-ancestors 'none'\r\nConnection: close\r\n"
    )
}

fn send(stream: &mut TcpStream, asked: &Asked, kind: &str, bytes: &[u8]) -> io::Result<()> {
    let length = bytes.len();
    let head = head((200, "OK"), kind) + &format!("Content-Length: {length}\r\n\r\n");
    stream.write_all(head.as_bytes())?;
    if !asked.head_only {
        stream.write_all(bytes)?;
    }
    stream.flush()
}

fn refuse(stream: &mut TcpStream, refused: Refused, head_only: bool) -> io::Result<()> {
    let (status, words) = refused;
    let text = format!("{status} {words}\n");
    let mut answer = head(refused, "text/plain; charset=utf-8");
    answer += &format!("Content-Length: {}\r\n\r\n", text.len());
    if !head_only {
        answer += &text;
    }
    stream.write_all(answer.as_bytes())?;
    stream.flush()
}

/// Tells which pages there are, at once and at each change, until nobody reads it.
fn events(site: &Site, stream: &mut TcpStream) -> io::Result<()> {
    let head = head((200, "OK"), "text/event-stream") + "\r\n";
    stream.write_all(head.as_bytes())?;
    let mut told = None;
    loop {
        let changes = *site.lock();
        let line = match told {
            Some(before) if before == changes => ":\n\n".to_owned(),
            _ => format!("data: {}\n\n", site.version(changes)),
        };
        stream.write_all(line.as_bytes())?;
        told = Some(changes);
        let same = |now: &mut u64| *now == changes;
        let waited = site.changed.wait_timeout_while(site.lock(), PULSE, same);
        drop(waited.unwrap_or_else(PoisonError::into_inner));
    }
}
