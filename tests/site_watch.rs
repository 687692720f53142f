//! `site --watch`: the pages follow the files, and nobody but this machine's own browser reads them.

#![cfg(unix)]
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::disallowed_methods,
    reason = "a test may fail, and looks at files itself"
)]

mod util;

use std::fs;
use std::io::{Read, Write};
use std::net::{SocketAddr, TcpStream};
use std::process::Command;

use serde_json::Value as Json;
use util::watching::{PATIENCE, Watching, is_time, started};
use util::{Folder, here, packages};

const PROCEDURE: &str = "procedures/first-procedure.yaml";
const PAGE: &str = "procedures/first-procedure.html";

/// The program serving a shop, after its first build.
struct Served {
    watching: Watching,
    address: String,
}

impl Served {
    fn begin(folder: &Folder) -> Self {
        Self::of(Watching::begin(folder, &["site", "--watch"]))
    }

    fn of(watching: Watching) -> Self {
        let address = watching.next();
        let address = address.split(' ').next().unwrap().to_owned();
        assert!(address.starts_with("http://127.0.0.1:"), "{address}");
        Self { watching, address }
    }

    /// Waits until the pages are built anew.
    fn built(&self) {
        self.watching.comes(&format!(" files: {}", self.address));
    }

    fn socket(&self) -> SocketAddr {
        let address = self.address.trim_start_matches("http://");
        address.trim_end_matches('/').parse().unwrap()
    }

    /// Everything that is answered to these bytes.
    fn raw(&self, request: &str) -> String {
        let mut stream = TcpStream::connect(self.socket()).unwrap();
        stream.set_read_timeout(Some(PATIENCE)).unwrap();
        stream.write_all(request.as_bytes()).unwrap();
        let mut answer = Vec::new();
        stream.read_to_end(&mut answer).unwrap();
        String::from_utf8_lossy(&answer).into_owned()
    }

    fn get(&self, target: &str) -> String {
        self.raw(&format!("GET {target} HTTP/1.1\r\nHost: localhost\r\n\r\n"))
    }
}

fn change(folder: &Folder, old: &str, new: &str) {
    let text = folder.read(PROCEDURE);
    assert!(text.contains(old), "`{old}` is not in {PROCEDURE}");
    fs::write(folder.path().join(PROCEDURE), text.replace(old, new)).unwrap();
}

/// The title of the first procedure, as its file says it.
fn title(folder: &Folder) -> String {
    let text = folder.read(PROCEDURE);
    let line = text.lines().find_map(|line| line.strip_prefix("title: "));
    line.unwrap().to_owned()
}

#[track_caller]
fn is(answer: &str, status: u16) {
    let line = answer.lines().next().unwrap_or_default();
    assert!(line.starts_with(&format!("HTTP/1.1 {status} ")), "{line}");
}

#[test]
fn a_change_is_built_and_served_and_a_fault_leaves_the_last_good_pages() {
    let folder = started();
    let served = Served::begin(&folder);
    served.built();
    let title = title(&folder);
    assert!(served.get(&format!("/{PAGE}")).contains(&title));

    change(&folder, &title, "Groove for the oar rack");
    served.built();
    let page = served.get(&format!("/{PAGE}"));
    assert!(page.contains("Groove for the oar rack") && !page.contains(&title));
    assert!(served.get("/").contains("Groove for the oar rack"));

    change(&folder, "title:", "titel:");
    served
        .watching
        .comes("errors above: the pages stay as they were");
    served.watching.complains("error[unknown-key]");
    served.watching.complains(&format!("{PROCEDURE}:"));
    assert!(
        served
            .get(&format!("/{PAGE}"))
            .contains("Groove for the oar rack")
    );

    // A note's link that leads nowhere stops the pages too, and is told where it stands.
    change(&folder, "titel:", "title:");
    served.built();
    let note = "---\nnote: varnish\ntitle: Varnish\nabout: [first-procedure]\n---\nSee [it](note:no-such).\n";
    fs::create_dir_all(folder.path().join("notes")).unwrap();
    fs::write(folder.path().join("notes/varnish.md"), note).unwrap();
    served
        .watching
        .comes("errors above: the pages stay as they were");
    served.watching.complains("error[link-broken]");
    served.watching.complains("notes/varnish.md:6:");
    is(&served.get("/notes/varnish.html"), 404);
    let mended = note.replace("no-such", "varnish");
    fs::write(folder.path().join("notes/varnish.md"), mended).unwrap();
    served.built();
    is(&served.get("/notes/varnish.html"), 200);
}

#[test]
fn a_line_of_the_record_is_on_the_page_at_once_and_a_job_that_cannot_be_printed_is_told_each_time()
{
    let folder = started();
    let served = Served::of(Watching::begin(
        &folder,
        &["site", "--watch", "--with-record"],
    ));
    served.built();
    let note = [
        "record",
        "note",
        "by=QZ7",
        "about=first-procedure",
        "text=the fence creeps",
    ];
    folder.run(&note).code(0);
    served.built();
    let page = served.get(&format!("/{PAGE}"));
    assert!(page.contains("the fence creeps") && !page.contains("QZ7"));

    let job = folder.path().join("jobs/first-job.yaml");
    let text = fs::read_to_string(&job).unwrap();
    fs::write(&job, text.replace("first-procedure", "no-such-procedure")).unwrap();
    served.watching.complains("warning[");
    served.built();
    is(&served.get(&format!("/{PAGE}")), 200);
    // The next build tells it again.
    let title = title(&folder);
    change(&folder, &title, "Groove for the oar rack");
    served.watching.complains("warning[");
    served.built();
}

#[test]
fn a_page_is_served_with_the_script_that_its_file_has_not() {
    let folder = started();
    let served = Served::begin(&folder);
    served.built();
    let answer = served.get("/index.html");
    is(&answer, 200);
    let (head, page) = answer.split_once("\r\n\r\n").unwrap();
    for line in [
        "Content-Type: text/html; charset=utf-8",
        "Cache-Control: no-store",
        "X-Content-Type-Options: nosniff",
        "Cross-Origin-Resource-Policy: same-origin",
        "Content-Security-Policy: frame-ancestors 'none'",
    ] {
        assert!(head.contains(line), "no `{line}` in {head}");
    }
    assert!(head.contains(&format!("Content-Length: {}", page.len())));
    let file = folder.read("out/site/index.html");
    let added: Vec<&str> = page.lines().filter(|line| !file.contains(line)).collect();
    assert!(
        added.len() == 2 && added[1].contains("/-/reload.js?at="),
        "{added:?}"
    );
    assert!(!file.contains("reload.js"));
    for (target, kind) in [
        ("/manual.css", "text/css; charset=utf-8"),
        ("/search.js", "text/javascript; charset=utf-8"),
        ("/-/reload.js?at=1", "text/javascript; charset=utf-8"),
        ("/procedure.schema.json", "application/json"),
    ] {
        let answer = served.get(target);
        is(&answer, 200);
        assert!(
            answer.contains(&format!("Content-Type: {kind}\r\n")),
            "{target}"
        );
    }
    let head = served.raw("HEAD / HTTP/1.1\r\nHost: localhost\r\n\r\n");
    is(&head, 200);
    assert!(head.ends_with("\r\n\r\n"), "a body: {head}");
}

#[test]
fn only_files_of_the_folder_are_served_and_only_under_this_machines_name() {
    let folder = started();
    let served = Served::begin(&folder);
    served.built();
    let outside = folder.path().join("secret.html");
    fs::write(&outside, "a secret").unwrap();
    let site = folder.path().join("out/site");
    std::os::unix::fs::symlink(&outside, site.join("linked.html")).unwrap();
    std::os::unix::fs::symlink(folder.path(), site.join("way")).unwrap();
    std::os::unix::fs::symlink(site.join("index.html"), site.join("inside.html")).unwrap();
    for target in [
        "/../secret.html",
        "/../../secret.html",
        "/%2e%2e/%2e%2e/secret.html",
        "/..%2f..%2fsecret.html",
        "/procedures/../../../secret.html",
        "/..\\..\\secret.html",
        "//etc/passwd",
        "/%2fetc/passwd",
        "/linked.html",
        "/way/secret.html",
        "/inside.html",
        "/.faceside-folder",
        "/./index.html",
        "/index.html/",
        "/index.html%00",
        "/procedures",
        "/procedures/",
        "/no-such.html",
    ] {
        let answer = served.get(target);
        is(&answer, 404);
        assert!(!answer.contains("secret"), "{target}: {answer}");
    }
    for (request, status) in [
        ("GET / HTTP/1.1\r\nHost: shop.example\r\n\r\n", 421),
        ("GET /-/changes HTTP/1.1\r\nHost: shop.example\r\n\r\n", 421),
        ("GET / HTTP/1.1\r\n\r\n", 400),
        ("GET /%gg HTTP/1.1\r\nHost: localhost\r\n\r\n", 400),
        ("POST / HTTP/1.1\r\nHost: localhost\r\n\r\n", 405),
        ("\u{1}\u{2}\u{3}\r\n\r\n", 400),
    ] {
        let answer = served.raw(request);
        is(&answer, status);
        assert!(!answer.contains("<html"), "{request}: {answer}");
    }
    // It goes on.
    is(&served.get("/"), 200);
}

/// Any address of this machine but the loopback's own must find nobody; Linux answers on all of
/// 127.0.0.0/8, so that 127.0.0.2 is such a one without a network.
#[cfg(target_os = "linux")]
#[test]
fn it_listens_on_one_address_only_and_a_port_that_is_taken_is_told() {
    let folder = started();
    let served = Served::begin(&folder);
    let port = served.socket().port();
    assert!(TcpStream::connect(("127.0.0.1", port)).is_ok());
    assert!(TcpStream::connect(("127.0.0.2", port)).is_err());
    let taken = folder.run(&["site", "--watch", "--port", &port.to_string()]);
    taken
        .code(1)
        .complains("error[address-taken]")
        .complains(&format!("127.0.0.1:{port}"));
    folder.run(&["site", "--port", "4000"]).code(2);
}

#[test]
fn the_stream_of_events_tells_each_change() {
    let folder = started();
    let served = Served::begin(&folder);
    served.built();
    let mut stream = TcpStream::connect(served.socket()).unwrap();
    stream.set_read_timeout(Some(PATIENCE)).unwrap();
    stream
        .write_all(b"GET /-/changes HTTP/1.1\r\nHost: 127.0.0.1\r\n\r\n")
        .unwrap();
    let mut told = String::new();
    let mut until = |events: usize| {
        let mut bytes = [0; 1024];
        while told.matches("data: ").count() < events {
            let read = stream.read(&mut bytes).unwrap();
            assert!(read > 0, "the stream ends: {told}");
            told.push_str(&String::from_utf8_lossy(&bytes[..read]));
        }
        told.clone()
    };
    let first = until(1);
    assert!(
        first.contains("Content-Type: text/event-stream\r\n"),
        "{first}"
    );
    let title = title(&folder);
    change(&folder, &title, "Groove for the oar rack");
    let both = until(2);
    let mut versions = both.lines().filter_map(|line| line.strip_prefix("data: "));
    assert_ne!(versions.next(), versions.next());
}

#[test]
fn many_connections_at_once_do_not_shut_it_up() {
    let folder = started();
    let served = Served::begin(&folder);
    served.built();
    let idle: Vec<_> = (0..200)
        .map(|_| TcpStream::connect(served.socket()).unwrap())
        .collect();
    drop(idle);
    let begun = std::time::Instant::now();
    // Those that were turned away are closed; the others are let go of one by one.
    while !served.get("/").starts_with("HTTP/1.1 200") {
        assert!(begun.elapsed() < PATIENCE, "nobody answers any more");
    }
}

#[test]
fn what_cannot_be_watched_is_refused() {
    let run = Folder::empty().run(&["site", "--watch"]);
    run.code(2).complains("the built-in library never changes");
    let folder = started();
    let run = folder.run(&["site", "--watch", "--out", "notes/pages"]);
    run.code(2)
        .complains("`notes/pages` is among the files that are watched");
    assert!(!folder.path().join("notes/pages").exists());
}

#[cfg(target_os = "linux")]
#[test]
fn the_interrupt_of_ctrl_c_ends_it_clean() {
    let folder = started();
    let watching = Watching::at_a_terminal(&folder, &["site", "--watch"]);
    let mut served = Served::of(watching);
    let first = served.watching.next();
    assert!(is_time(&first), "{first}");
    let title = title(&folder);
    // While it builds again.
    change(&folder, &title, "Groove for the oar rack");
    std::thread::sleep(std::time::Duration::from_millis(200));
    let ended = served.watching.interrupt();
    assert_eq!(ended.code(), Some(130));
    assert!(folder.read("out/site/index.html").contains("</html>"));
    for entry in fs::read_dir(folder.path().join("out")).unwrap() {
        let name = entry.unwrap().file_name().display().to_string();
        assert!(["site", ".site.lock"].contains(&&*name), "`{name}` is left");
    }
}

#[test]
fn an_open_page_shows_the_new_words_and_asks_nobody_else() {
    let folder = started();
    let served = Served::begin(&folder);
    served.built();
    let mut node = Command::new("node");
    node.arg(here().join("tests/site_watch/follow.mjs"))
        .arg(packages())
        .args([&served.address, PAGE])
        .arg(folder.path().join(PROCEDURE))
        .args([&title(&folder), "Groove for the oar rack"]);
    let out = node.output().expect("node with Chromium");
    let told: Json = serde_json::from_slice(&out.stdout)
        .unwrap_or_else(|_| panic!("{}", String::from_utf8_lossy(&out.stderr)));
    let other = served.address.replace("127.0.0.1", "localhost");
    assert_eq!(told["asked"], serde_json::json!([served.address, other]));
    assert_eq!(told["complaints"], serde_json::json!([]));
    assert_eq!(told["settled"], 1, "loaded once for one change");
    assert_eq!(told["stolen"], "kept", "a page elsewhere reads the index");
}
