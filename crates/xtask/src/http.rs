//! As much of HTTP/1.1 as a browser on the same machine needs: GET and HEAD,
//! one answer a connection.
//!
//! Servers that come as a crate and are as small (tiny_http 0.12) take requests of any
//! length and wait for them for ever, and keep back what should be sent at once: the news
//! of `serve` would need most of this file all the same.

use crate::site::{POLICY, extension};
use std::io::{BufRead, BufReader, Read, Write};
use std::net::TcpStream;
use std::time::Duration;

/// Longer than any address of ours, short enough to hold.
const LONGEST_REQUEST: u64 = 64 * 1024;

/// What a browser asked for.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct Asked {
    pub(crate) method: String,
    /// Without the leading slash and without the query.
    pub(crate) name: String,
}

/// Reads one request; nothing when the browser said nothing, or nonsense.
pub(crate) fn asked(stream: &TcpStream) -> Option<Asked> {
    // Browsers open connections ahead of need and may never use them.
    stream.set_read_timeout(Some(Duration::from_secs(30))).ok()?;
    read(&mut BufReader::new(stream.take(LONGEST_REQUEST)))
}

fn read(input: &mut impl BufRead) -> Option<Asked> {
    let mut first = String::new();
    input.read_line(&mut first).ok()?;
    let mut words = first.split_ascii_whitespace();
    let (method, target, version) = (words.next()?, words.next()?, words.next()?);
    if !version.starts_with("HTTP/1.") {
        return None;
    }
    // The answer never depends on the headers, but they must be read: closing
    // with something unread tells the browser that the connection broke.
    let mut line = String::new();
    loop {
        line.clear();
        input.read_line(&mut line).ok()?;
        if line.trim_end().is_empty() {
            break;
        }
    }
    let path = target.split(['?', '#']).next().unwrap_or_default();
    let name = match path.strip_prefix('/')? {
        "" => "index.html",
        name => name,
    };
    Some(Asked { method: method.to_owned(), name: name.to_owned() })
}

/// The first lines of an answer, up to and with the empty one.
pub(crate) fn head(status: &str, kind: &str, length: Option<usize>) -> String {
    let length = length.map_or_else(String::new, |length| format!("Content-Length: {length}\r\n"));
    format!(
        "HTTP/1.1 {status}\r\nContent-Type: {kind}\r\n{length}Cache-Control: no-store\r\n\
         Content-Security-Policy: {POLICY}\r\nX-Content-Type-Options: nosniff\r\n\
         Referrer-Policy: no-referrer\r\nConnection: close\r\n\r\n"
    )
}

/// Sends a whole answer. A browser that has gone away is no error of ours.
pub(crate) fn answer(stream: &mut TcpStream, asked: &Asked, status: &str, kind: &str, body: &[u8]) {
    let head = head(status, kind, Some(body.len()));
    let mut sent = stream.write_all(head.as_bytes());
    if asked.method != "HEAD" {
        sent = sent.and_then(|()| stream.write_all(body));
    }
    if sent.and_then(|()| stream.flush()).is_ok() {
        let _closed = stream.shutdown(std::net::Shutdown::Write);
    }
}

/// What a file is, by the end of its name.
pub(crate) fn kind(name: &str) -> &'static str {
    match extension(name) {
        "html" => "text/html; charset=utf-8",
        "js" => "text/javascript; charset=utf-8",
        "css" => "text/css; charset=utf-8",
        "wasm" => "application/wasm",
        "svg" => "image/svg+xml",
        "png" => "image/png",
        "webmanifest" => "application/manifest+json",
        "txt" => "text/plain; charset=utf-8",
        _ => "application/octet-stream",
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn name(request: &str) -> Option<String> {
        read(&mut request.as_bytes()).map(|asked| asked.name)
    }

    #[test]
    fn what_is_asked_for() {
        for (request, expected) in [
            ("GET / HTTP/1.1\r\nHost: x\r\n\r\n", Some("index.html")),
            ("GET /a-1.js?again HTTP/1.1\r\n\r\n", Some("a-1.js")),
            ("HEAD /a/b.svg HTTP/1.0\r\n\r\n", Some("a/b.svg")),
            ("GET http://elsewhere/ HTTP/1.1\r\n\r\n", None),
            ("GET /\r\n\r\n", None),
            ("", None),
        ] {
            assert_eq!(name(request).as_deref(), expected, "{request:?}");
        }
    }

    #[test]
    fn wasm_is_sent_as_wasm_and_nothing_is_kept() {
        let head = head("200 OK", kind("a_bg.wasm"), Some(3));
        for line in [
            "HTTP/1.1 200 OK\r\n",
            "Content-Type: application/wasm\r\n",
            "Content-Length: 3\r\n",
            "Cache-Control: no-store\r\n",
            "Content-Security-Policy: default-src 'none'; script-src 'self' 'wasm-unsafe-eval'; style-src",
        ] {
            assert!(head.contains(line), "{line} in {head}");
        }
        assert!(head.ends_with("\r\n\r\n"));
    }
}
