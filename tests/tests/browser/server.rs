//! Serves the built site on this machine as its own example of headers asks a host to.

use std::io::{BufRead, BufReader, Write};
use std::net::{TcpListener, TcpStream};
use std::path::{Path, PathBuf};
use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::{Arc, Mutex, MutexGuard};
use std::thread::JoinHandle;

/// A page of this origin that is not the page.
pub(crate) const BLANK: &str = "/blank-for-the-proofs";

/// What the server knows: what it serves, under which folder, and what it was asked for.
#[derive(Debug)]
struct Known {
    site: Mutex<PathBuf>,
    /// Where the site lies: `/`, or a folder with a slash at either end.
    under: String,
    asked: Mutex<Vec<String>>,
    ends: AtomicBool,
    /// What files have in their names that are held back.
    held_back: Mutex<Option<String>>,
}

/// A site being served.
#[derive(Debug)]
pub(crate) struct Server {
    port: u16,
    known: Arc<Known>,
    thread: Mutex<Option<JoinHandle<()>>>,
}

fn held<T>(mutex: &Mutex<T>) -> MutexGuard<'_, T> {
    mutex.lock().expect("no thread fails while it holds this")
}

impl Server {
    /// Serves a site on a free port, as a folder of a larger one or, at `/`, alone.
    pub(crate) fn start(site: &Path, under: &str) -> Self {
        assert!(site.join("index.html").is_file(), "no site in {}", site.display());
        let known = Known {
            site: Mutex::new(site.to_path_buf()),
            under: under.to_owned(),
            asked: Mutex::default(),
            ends: AtomicBool::new(false),
            held_back: Mutex::default(),
        };
        let server = Self { port: 0, known: Arc::new(known), thread: Mutex::new(None) };
        let port = server.listen();
        Self { port, ..server }
    }

    fn listen(&self) -> u16 {
        let listener = TcpListener::bind(("127.0.0.1", self.port)).expect("a free port");
        let port = listener.local_addr().expect("a bound port").port();
        let known = Arc::clone(&self.known);
        known.ends.store(false, Ordering::SeqCst);
        let thread = std::thread::spawn(move || {
            for stream in listener.incoming().flatten() {
                if known.ends.load(Ordering::SeqCst) {
                    return;
                }
                let known = Arc::clone(&known);
                // A browser that goes away in the middle of an answer is no failure.
                std::thread::spawn(move || drop(answer(stream, &known)));
            }
        });
        *held(&self.thread) = Some(thread);
        port
    }

    /// Stops: nobody answers at the port any more.
    pub(crate) fn stop(&self) {
        self.known.ends.store(true, Ordering::SeqCst);
        let thread = held(&self.thread).take().expect("a server that runs");
        // It waits for the next to come.
        drop(TcpStream::connect(("127.0.0.1", self.port)));
        thread.join().expect("a thread that ends");
        let refused = TcpStream::connect(("127.0.0.1", self.port));
        assert!(refused.is_err(), "somebody still answers");
    }

    /// Answers again, at the same port.
    pub(crate) fn go_on(&self) {
        self.listen();
    }

    /// Serves another folder from now on.
    pub(crate) fn switch(&self, site: &Path) {
        *held(&self.known.site) = site.to_path_buf();
    }

    /// Holds back files that have this in their names, as a slow network does.
    pub(crate) fn hold_back(&self, part: &str) {
        *held(&self.known.held_back) = Some(part.to_owned());
    }

    /// Gives what was held back, as it is by now.
    pub(crate) fn give(&self) {
        *held(&self.known.held_back) = None;
    }

    /// The machine and port.
    pub(crate) fn origin(&self) -> String {
        format!("http://127.0.0.1:{}", self.port)
    }

    /// Where the page is, with a slash at its end.
    pub(crate) fn address(&self) -> String {
        format!("{}{}", self.origin(), self.known.under)
    }

    /// What has been asked for.
    pub(crate) fn asked(&self) -> Vec<String> {
        held(&self.known.asked).clone()
    }
}

fn answer(stream: TcpStream, known: &Known) -> std::io::Result<()> {
    let mut reader = BufReader::new(&stream);
    let mut line = String::new();
    reader.read_line(&mut line)?;
    // The browser waits for an answer until its own headers have been read.
    let mut header = String::new();
    while reader.read_line(&mut header)? > 2 {
        header.clear();
    }
    // Browsers connect ahead of need: what was connected before a stop gets no answer after it.
    if known.ends.load(Ordering::SeqCst) {
        return Ok(());
    }
    let path = line.split_whitespace().nth(1).unwrap_or("/").to_owned();
    let name = name(&path, &known.under);
    held(&known.asked).push(path.clone());
    while held(&known.held_back).as_ref().is_some_and(|part| path.contains(part)) {
        std::thread::sleep(std::time::Duration::from_millis(20));
    }
    let site = held(&known.site).clone();
    let file = name.as_ref().map(|name| std::fs::read(site.join(name)));
    let (status, name, body) = match (file, name) {
        _ if line.contains(BLANK) => {
            let blank = "<!doctype html><link rel=icon href='data:,'><title>blank</title>";
            ("200 OK", "blank.html".to_owned(), blank.into())
        }
        (Some(Ok(body)), Some(name)) => ("200 OK", name, body),
        _ => ("404 Not Found", "none.txt".to_owned(), b"not here".to_vec()),
    };
    let mut head =
        format!("HTTP/1.1 {status}\r\nContent-Length: {}\r\nConnection: close\r\n", body.len());
    let example = std::fs::read_to_string(site.join("headers.example.txt"))?;
    for (header, value) in headers(&example, &name) {
        head.push_str(&format!("{header}: {value}\r\n"));
    }
    let mut stream = &stream;
    stream.write_all(format!("{head}\r\n").as_bytes())?;
    stream.write_all(&body)
}

/// The file of a path, as a name within the site; none outside of it.
fn name(path: &str, under: &str) -> Option<String> {
    let path = path.split(['?', '#']).next()?.strip_prefix(under)?;
    let inside = path.split('/').all(|part| part != "..");
    let page = if path.is_empty() || path.ends_with('/') { "index.html" } else { "" };
    inside.then(|| format!("{path}{page}"))
}

/// What the example tells a host to send with a file.
pub(crate) fn headers(example: &str, name: &str) -> Vec<(String, String)> {
    let mut told: Vec<(String, String)> = Vec::new();
    let mut speaks = false;
    for line in example.lines().filter(|line| !line.is_empty() && !line.starts_with('#')) {
        if let Some(whom) = line.strip_prefix('[').and_then(|line| line.strip_suffix(']')) {
            speaks = match whom {
                "every file" => true,
                "files with sixteen hexadecimal digits in their name" => is_named_after(name),
                _ => name.ends_with(whom.strip_prefix('*').expect("a known heading")),
            };
        } else if speaks {
            let (header, value) = line.split_once(": ").expect("a header");
            told.retain(|(known, _)| known != header);
            told.push((header.to_owned(), value.to_owned()));
        }
    }
    told
}

/// Whether a file is named after its content.
fn is_named_after(name: &str) -> bool {
    name.split(['-', '.'])
        .any(|part| part.len() == 16 && part.bytes().all(|byte| byte.is_ascii_hexdigit()))
}
