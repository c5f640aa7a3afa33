//! Serves a built site on this machine as its own example of headers asks a host to: packed
//! where the browser takes it.

use super::server;
use std::io::{BufRead, BufReader, Write};
use std::net::{TcpListener, TcpStream};
use std::path::{Path, PathBuf};
use std::sync::{Arc, Mutex};

/// What was asked for so far.
type Asked = Arc<Mutex<Vec<String>>>;

/// A site being served until the program ends.
#[derive(Debug)]
pub(crate) struct Host {
    pub(crate) folder: PathBuf,
    port: u16,
    asked: Asked,
}

impl Host {
    pub(crate) fn start(folder: PathBuf) -> Self {
        assert!(folder.join("index.html").is_file(), "no site in {}", folder.display());
        let packed = folder.join("index.html.br").is_file();
        assert!(packed, "nothing is packed in {}", folder.display());
        let listener = TcpListener::bind(("127.0.0.1", 0)).expect("a free port");
        let port = listener.local_addr().expect("a bound port").port();
        let asked = Asked::default();
        let known = (folder.clone(), Arc::clone(&asked));
        std::thread::spawn(move || {
            for stream in listener.incoming().flatten() {
                let (folder, asked) = known.clone();
                // A browser that goes away in the middle of an answer is no failure.
                std::thread::spawn(move || drop(answer(stream, &folder, &asked)));
            }
        });
        Self { folder, port, asked }
    }

    pub(crate) fn origin(&self) -> String {
        format!("http://127.0.0.1:{}", self.port)
    }

    /// The paths that have been asked for.
    pub(crate) fn asked(&self) -> Vec<String> {
        self.asked.lock().expect("no thread fails while it holds this").clone()
    }
}

/// The file behind a path.
pub(crate) fn file(path: &str) -> String {
    match path.split(['?', '#']).next().unwrap_or_default().trim_start_matches('/') {
        "" => "index.html".to_owned(),
        name => name.to_owned(),
    }
}

fn answer(stream: TcpStream, folder: &Path, asked: &Asked) -> std::io::Result<()> {
    let mut reader = BufReader::new(&stream);
    let mut line = String::new();
    reader.read_line(&mut line)?;
    let mut takes_packed = false;
    let mut header = String::new();
    while reader.read_line(&mut header)? > 2 {
        let lower = header.to_ascii_lowercase();
        takes_packed |= lower.starts_with("accept-encoding:") && lower.contains("br");
        header.clear();
    }
    // Browsers connect ahead of need.
    let Some(path) = line.split_whitespace().nth(1) else { return Ok(()) };
    asked.lock().expect("no thread fails while it holds this").push(path.to_owned());
    let name = file(path);
    let within = name.split('/').all(|part| part != "..");
    let read = |name: &str| within.then(|| std::fs::read(folder.join(name)).ok()).flatten();
    let packed = takes_packed.then(|| read(&format!("{name}.br"))).flatten();
    let coded = if packed.is_some() { "Content-Encoding: br\r\n" } else { "" };
    let (status, body) = match packed.or_else(|| read(&name)) {
        Some(body) => ("200 OK", body),
        None => ("404 Not Found", b"not here".to_vec()),
    };
    let length = body.len();
    let mut head = format!(
        "HTTP/1.1 {status}\r\nContent-Length: {length}\r\nConnection: close\r\nVary: Accept-Encoding\r\n{coded}"
    );
    let example = std::fs::read_to_string(folder.join("headers.example.txt"))?;
    for (header, value) in server::headers(&example, &name) {
        head.push_str(&format!("{header}: {value}\r\n"));
    }
    let mut stream = &stream;
    stream.write_all(format!("{head}\r\n").as_bytes())?;
    stream.write_all(&body)
}
