//! What a browser asks of the served pages: the head of one request, read and judged.
//!
//! Only a reading of a path on this machine's own name is let through. The `Host` is that of the
//! address bar; where a page elsewhere has its name lead here, it is still that page's name, and so
//! it is refused (RFC 9110 section 7.4 asks for the check, with 421 as the answer).

use std::io::Read;
use std::time::{Duration, Instant};

use httparse::{EMPTY_HEADER, Request, Status};

/// The longest head that is read, in bytes.
const LONGEST: usize = 8192;

/// Most lines of a head.
const MOST_LINES: usize = 64;

/// How long a head may take to arrive.
const PATIENCE: Duration = Duration::from_secs(10);

/// A request that may be answered.
#[derive(Debug, PartialEq, Eq)]
pub(super) struct Asked {
    /// Path below the folder, `/` between its parts; empty for the folder itself.
    pub(super) path: String,
    /// Whether only the head of the answer is wanted.
    pub(super) head_only: bool,
}

/// Status code and words of an answer that gives no page.
pub(super) type Refused = (u16, &'static str);

/// Reads one request.
pub(super) fn read(stream: &mut impl Read) -> Result<Asked, Refused> {
    let begun = Instant::now();
    let mut bytes = [0; LONGEST];
    let mut length = 0;
    loop {
        if length == LONGEST {
            return Err((431, "Request Header Fields Too Large"));
        }
        if begun.elapsed() > PATIENCE {
            return Err((408, "Request Timeout"));
        }
        match stream.read(&mut bytes[length..]) {
            Ok(0) | Err(_) => return Err((408, "Request Timeout")),
            Ok(more) => length += more,
        }
        if let Some(judged) = judge(&bytes[..length]) {
            return judged;
        }
    }
}

/// The judgement of a head; none while it is not whole.
fn judge(bytes: &[u8]) -> Option<Result<Asked, Refused>> {
    const BAD: Refused = (400, "Bad Request");
    let mut lines = [EMPTY_HEADER; MOST_LINES];
    let mut head = Request::new(&mut lines);
    match head.parse(bytes) {
        Ok(Status::Partial) => return None,
        Ok(Status::Complete(_)) => {}
        Err(httparse::Error::TooManyHeaders) => {
            return Some(Err((431, "Request Header Fields Too Large")));
        }
        Err(_) => return Some(Err(BAD)),
    }
    let is_host = |name: &str| name.eq_ignore_ascii_case("host");
    let mut hosts = head.headers.iter().filter(|line| is_host(line.name));
    let (Some(host), None) = (hosts.next(), hosts.next()) else {
        return Some(Err(BAD));
    };
    if !is_here(host.value) {
        return Some(Err((421, "Misdirected Request")));
    }
    let head_only = match head.method {
        Some("GET") => false,
        Some("HEAD") => true,
        _ => return Some(Err((405, "Method Not Allowed"))),
    };
    let path = head.path.and_then(path);
    Some(path.map(|path| Asked { path, head_only }).ok_or(BAD))
}

/// Whether a `Host` is this machine's own name or address, whatever its port.
fn is_here(host: &[u8]) -> bool {
    let Ok(host) = std::str::from_utf8(host) else {
        return false;
    };
    let name = match host.rsplit_once(':') {
        Some((name, port)) if port.bytes().all(|one| one.is_ascii_digit()) => name,
        _ => host,
    };
    name == "127.0.0.1" || name.eq_ignore_ascii_case("localhost")
}

/// The path of a target without its question, `%` resolved.
fn path(target: &str) -> Option<String> {
    let path = target.strip_prefix('/')?;
    let path = path.split(['?', '#']).next()?;
    let mut bytes = path.bytes();
    let mut out = Vec::new();
    while let Some(byte) = bytes.next() {
        if byte == b'%' {
            let mut digit = || char::from(bytes.next()?).to_digit(16);
            let (high, low) = (digit()?, digit()?);
            out.push(u8::try_from(high * 16 + low).ok()?);
        } else {
            out.push(byte);
        }
    }
    String::from_utf8(out).ok()
}

#[cfg(test)]
mod tests {
    use super::{Refused, read};

    fn asked(head: &str) -> Result<(String, bool), Refused> {
        let mut bytes = head.as_bytes();
        read(&mut bytes).map(|asked| (asked.path, asked.head_only))
    }

    #[test]
    fn a_path_comes_without_its_question_and_with_its_signs() {
        let head = "GET /notes/a%20b.html?at=3 HTTP/1.1\r\nhOsT: localhost:81\r\n\r\n";
        assert_eq!(asked(head), Ok(("notes/a b.html".to_owned(), false)));
        let head = "HEAD / HTTP/1.1\r\nHost: 127.0.0.1\r\n\r\n";
        assert_eq!(asked(head), Ok((String::new(), true)));
    }

    #[test]
    fn only_this_machines_own_name_is_answered() {
        for (host, status) in [
            ("Host: shop.example", 421),
            ("Host: 127.0.0.1.shop.example", 421),
            ("Host: localhost.shop.example:80", 421),
            ("Host: 127.0.0.1:80@shop.example", 421),
            ("Host: 0.0.0.0", 421),
            ("Host:", 421),
            ("Host: localhost\r\nHost: shop.example", 400),
            ("Accept: */*", 400),
        ] {
            let told = asked(&format!("GET / HTTP/1.1\r\n{host}\r\n\r\n"));
            assert_eq!(told.map_err(|(code, _)| code), Err(status), "{host}");
        }
    }

    #[test]
    fn what_is_no_reading_of_a_path_is_refused() {
        let host = "Host: localhost\r\n";
        for (line, status) in [
            ("POST / HTTP/1.1", 405),
            ("GET http://shop.example/ HTTP/1.1", 400),
            ("GET /%zz HTTP/1.1", 400),
            ("GET /%2 HTTP/1.1", 400),
            ("GET /%ff HTTP/1.1", 400),
            ("GET * HTTP/1.1", 400),
            ("no request", 400),
        ] {
            let told = asked(&format!("{line}\r\n{host}\r\n"));
            assert_eq!(told.map_err(|(code, _)| code), Err(status), "{line}");
        }
        let long = format!("GET /{} HTTP/1.1\r\n{host}\r\n", "a".repeat(9000));
        assert_eq!(asked(&long).map_err(|(code, _)| code), Err(431));
        let lines = "a: b\r\n".repeat(100);
        let many = format!("GET / HTTP/1.1\r\n{host}{lines}\r\n");
        assert_eq!(asked(&many).map_err(|(code, _)| code), Err(431));
        assert_eq!(
            asked("GET / HTTP/1.1\r\n").map_err(|(code, _)| code),
            Err(408)
        );
    }
}
