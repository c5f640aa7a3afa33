//! Serves the built site on this machine, as a careful host would.

use std::io::{BufRead, BufReader, Write};
use std::net::{TcpListener, TcpStream};
use std::path::{Path, PathBuf};
use std::sync::{Arc, Mutex};

/// What a careful host sends with every file.
const POLICY: &str = "default-src 'none'; script-src 'self' 'wasm-unsafe-eval'; style-src 'self'; \
    img-src 'self' data:; connect-src 'self'; manifest-src 'self'; worker-src 'self'; \
    base-uri 'none'; form-action 'none'";

/// A page of this origin that is not the page.
pub(crate) const BLANK: &str = "/blank-for-the-proofs";

/// A site being served; its thread ends with the process.
pub(crate) struct Server {
    port: u16,
    asked: Arc<Mutex<Vec<String>>>,
}

impl Server {
    /// Serves a folder on a free port.
    pub(crate) fn start(folder: &Path) -> Self {
        assert!(folder.join("index.html").is_file(), "no site in {}", folder.display());
        let listener = TcpListener::bind(("127.0.0.1", 0)).expect("a free port");
        let port = listener.local_addr().expect("a bound port").port();
        let asked = Arc::new(Mutex::new(Vec::new()));
        let (folder, record) = (folder.to_path_buf(), Arc::clone(&asked));
        std::thread::spawn(move || {
            for stream in listener.incoming().flatten() {
                let (folder, record) = (folder.clone(), Arc::clone(&record));
                // A browser that goes away in the middle of an answer is no failure.
                std::thread::spawn(move || drop(answer(stream, &folder, &record)));
            }
        });
        Self { port, asked }
    }

    /// Where the page is.
    pub(crate) fn origin(&self) -> String {
        format!("http://127.0.0.1:{}", self.port)
    }

    /// What has been asked for.
    pub(crate) fn asked(&self) -> Vec<String> {
        self.asked.lock().expect("no thread fails while it holds this").clone()
    }
}

fn answer(stream: TcpStream, folder: &Path, asked: &Mutex<Vec<String>>) -> std::io::Result<()> {
    let mut reader = BufReader::new(&stream);
    let mut line = String::new();
    reader.read_line(&mut line)?;
    // The browser waits for an answer until its own headers have been read.
    let mut header = String::new();
    while reader.read_line(&mut header)? > 2 {
        header.clear();
    }
    let path = line.split_whitespace().nth(1).unwrap_or("/").to_owned();
    let file = file(folder, &path);
    asked.lock().expect("no thread fails while it holds this").push(path);
    let (status, kind, body) = match file.as_ref().map(std::fs::read) {
        _ if line.contains(BLANK) => {
            let blank = "<!doctype html><link rel=icon href='data:,'><title>blank</title>";
            ("200 OK", "text/html", blank.into())
        }
        Some(Ok(body)) => ("200 OK", kind(file.as_deref()), body),
        _ => ("404 Not Found", "text/plain", b"not here".to_vec()),
    };
    let mut stream = &stream;
    write!(
        stream,
        "HTTP/1.1 {status}\r\ncontent-type: {kind}\r\ncontent-length: {}\r\n\
         content-security-policy: {POLICY}\r\nx-content-type-options: nosniff\r\n\
         cache-control: no-cache\r\nconnection: close\r\n\r\n",
        body.len()
    )?;
    stream.write_all(&body)
}

/// The file of a path; none outside the folder.
fn file(folder: &Path, path: &str) -> Option<PathBuf> {
    let path = path.split(['?', '#']).next()?.trim_start_matches('/');
    let inside = path.split('/').all(|part| part != "..");
    let path = if path.is_empty() || path.ends_with('/') {
        format!("{path}index.html")
    } else {
        path.to_owned()
    };
    inside.then(|| folder.join(path))
}

fn kind(file: Option<&Path>) -> &'static str {
    match file.and_then(Path::extension).and_then(|ending| ending.to_str()) {
        Some("html") => "text/html; charset=utf-8",
        Some("js" | "mjs") => "text/javascript",
        Some("css") => "text/css",
        Some("wasm") => "application/wasm",
        Some("svg") => "image/svg+xml",
        Some("json" | "webmanifest") => "application/json",
        Some("txt") => "text/plain; charset=utf-8",
        _ => "application/octet-stream",
    }
}
