//! `cargo xtask serve`: the page while someone works on it.

use crate::bind::Profile;
use crate::http::{self, Asked};
use crate::run;
use crate::say::{self, Doing, Done, Failure};
use crate::site::{self, Files};
use crate::{tools, watch};
use std::io::Write;
use std::net::{Ipv4Addr, TcpListener, TcpStream};
use std::sync::{Arc, Condvar, Mutex, PoisonError};
use std::time::Duration;

const USUAL_PORT: u16 = 8017;
const LOOK_EVERY: Duration = Duration::from_millis(400);
const SIGN_OF_LIFE: Duration = Duration::from_secs(15);
const NEWS: &str = "reload-news";
const RELOAD: &str = "reload.js";

/// The last good site, and the wait for the next one.
#[derive(Debug)]
struct Shown {
    site: Mutex<Arc<Version>>,
    changed: Condvar,
}

/// A site and its number, which is the same again when the content is.
#[derive(Debug)]
struct Version {
    files: Files,
    number: u64,
}

impl Version {
    fn new(mut files: Files) -> Self {
        let mut all = Vec::new();
        for (name, content) in &files {
            all.extend_from_slice(name.as_bytes());
            all.extend_from_slice(&site::fingerprint(content).to_le_bytes());
        }
        let number = site::fingerprint(&all);
        if let Some(shell) = files.get_mut("index.html") {
            let with_reload = String::from_utf8_lossy(shell).replace(
                "</body>",
                &format!("<script src=\"{RELOAD}?{number:016x}\"></script>\n  </body>"),
            );
            *shell = with_reload.into_bytes();
        }
        files.insert(RELOAD.to_owned(), include_bytes!("reload.js").to_vec());
        Self { files, number }
    }
}

impl Shown {
    fn new(files: Files) -> Self {
        Self { site: Mutex::new(Arc::new(Version::new(files))), changed: Condvar::new() }
    }

    fn now(&self) -> Arc<Version> {
        let site = self.site.lock().unwrap_or_else(PoisonError::into_inner);
        Arc::clone(&site)
    }

    fn show(&self, files: Files) {
        let mut site = self.site.lock().unwrap_or_else(PoisonError::into_inner);
        *site = Arc::new(Version::new(files));
        self.changed.notify_all();
    }

    /// Returns when the number is another, or after a while.
    fn wait(&self, number: u64) {
        let site = self.site.lock().unwrap_or_else(PoisonError::into_inner);
        let _woken =
            self.changed.wait_timeout_while(site, SIGN_OF_LIFE, |site| site.number == number);
    }
}

/// Builds, serves, watches; ends only when it is ended.
pub(crate) fn run(port: Option<u16>, open: bool) -> Done {
    tools::wasm_target()?;
    // Taken before the build, so that a port in use does not cost a build.
    let listener = listen(port)?;
    let address = listener.local_addr().doing("ask for the address")?;
    let mut built = watch::stamp();
    let shown = Arc::new(Shown::new(site::build(Profile::Quick)?));
    let serving = Arc::clone(&shown);
    std::thread::spawn(move || accept(&listener, &serving));
    let url = format!("http://{address}/");
    println!(
        "\nThe page is at {url}\nIt rebuilds and reloads when a source changes. Ctrl-C ends it."
    );
    if open {
        open_browser(&url);
    }
    loop {
        std::thread::sleep(LOOK_EVERY);
        let mut seen = watch::stamp();
        if seen == built {
            continue;
        }
        // Whoever saves several files at once is not done with the first.
        loop {
            std::thread::sleep(LOOK_EVERY);
            let again = watch::stamp();
            if again == seen {
                break;
            }
            seen = again;
        }
        built = seen;
        println!("\nA source has changed.");
        match site::build(Profile::Quick) {
            Ok(files) => {
                shown.show(files);
                println!("The page at {url} is the new one.");
            }
            Err(failure) => {
                eprintln!("{failure}\nThe page at {url} stays the last one that could be built.");
            }
        }
    }
}

/// Takes the port asked for, or a free one from the usual on.
fn listen(port: Option<u16>) -> Done<TcpListener> {
    let candidates = match port {
        Some(port) => port..=port,
        None => USUAL_PORT..=USUAL_PORT + 40,
    };
    let mut reason = String::new();
    for candidate in candidates.clone() {
        match TcpListener::bind((Ipv4Addr::LOCALHOST, candidate)) {
            Ok(listener) => return Ok(listener),
            Err(error) => reason = error.to_string(),
        }
    }
    Err(Failure::new(
        format!(
            "no port from {} to {} is free on 127.0.0.1: {reason}",
            candidates.start(),
            candidates.end()
        ),
        "leave --port away, or give another one: `cargo xtask serve --port 9000`",
    ))
}

fn accept(listener: &TcpListener, shown: &Arc<Shown>) {
    for stream in listener.incoming().flatten() {
        let shown = Arc::clone(shown);
        std::thread::spawn(move || talk(stream, &shown));
    }
}

fn talk(mut stream: TcpStream, shown: &Shown) {
    let Some(asked) = http::asked(&stream) else {
        return;
    };
    if asked.method != "GET" && asked.method != "HEAD" {
        return plainly(&mut stream, &asked, "405 Method Not Allowed");
    }
    if asked.name == NEWS {
        return tell_news(&mut stream, shown);
    }
    let version = shown.now();
    match version.files.get(&asked.name) {
        Some(body) => http::answer(&mut stream, &asked, "200 OK", http::kind(&asked.name), body),
        None => plainly(&mut stream, &asked, "404 Not Found"),
    }
}

fn plainly(stream: &mut TcpStream, asked: &Asked, status: &str) {
    http::answer(stream, asked, status, "text/plain; charset=utf-8", status.as_bytes());
}

/// Sends the number of the site at once and at each change, until the browser leaves.
fn tell_news(stream: &mut TcpStream, shown: &Shown) {
    let mut sent = stream.write_all(http::head("200 OK", "text/event-stream", None).as_bytes());
    while sent.is_ok() {
        let number = shown.now().number;
        sent = stream
            .write_all(format!("data: {number:016x}\n\n").as_bytes())
            .and_then(|()| stream.flush());
        shown.wait(number);
    }
}

/// Opens the page in whatever the system opens pages with; says so if it cannot.
fn open_browser(url: &str) {
    let (program, arguments): (&str, &[&str]) = if cfg!(windows) {
        ("cmd", &["/C", "start"])
    } else if cfg!(target_os = "macos") {
        ("open", &[])
    } else {
        ("xdg-open", &[])
    };
    if let Err(error) = run::program(program).args(arguments).arg(url).spawn() {
        say::note(format!("could not open a browser ({program}: {error}); open {url} by hand"));
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::io::Read;

    fn files(text: &str) -> Files {
        Files::from([
            ("index.html".to_owned(), b"<body>x</body>".to_vec()),
            ("a.wasm".to_owned(), text.as_bytes().to_vec()),
        ])
    }

    fn start(shown: &Arc<Shown>) -> std::net::SocketAddr {
        let listener = TcpListener::bind((Ipv4Addr::LOCALHOST, 0)).unwrap();
        let address = listener.local_addr().unwrap();
        let shown = Arc::clone(shown);
        std::thread::spawn(move || accept(&listener, &shown));
        address
    }

    fn ask(address: std::net::SocketAddr, request: &str) -> String {
        let mut stream = TcpStream::connect(address).unwrap();
        stream.write_all(request.as_bytes()).unwrap();
        let mut answer = String::new();
        stream.read_to_string(&mut answer).unwrap();
        answer
    }

    #[test]
    fn a_browser_gets_the_files_and_the_reload_script() {
        let address = start(&Arc::new(Shown::new(files("one"))));
        let shell = ask(address, "GET / HTTP/1.1\r\n\r\n");
        assert!(shell.starts_with("HTTP/1.1 200 OK\r\n"), "{shell}");
        assert!(shell.contains("<script src=\"reload.js?"), "{shell}");
        let wasm = ask(address, "GET /a.wasm HTTP/1.1\r\n\r\n");
        assert!(wasm.contains("application/wasm") && wasm.ends_with("\r\n\r\none"));
        let head = ask(address, "HEAD /a.wasm HTTP/1.1\r\n\r\n");
        assert!(head.contains("Content-Length: 3") && head.ends_with("\r\n\r\n"));
        assert!(ask(address, "GET /../Cargo.toml HTTP/1.1\r\n\r\n").starts_with("HTTP/1.1 404 "));
        assert!(ask(address, "POST / HTTP/1.1\r\n\r\n").starts_with("HTTP/1.1 405 "));
    }

    #[test]
    fn news_come_at_once_and_with_each_change() {
        let shown = Arc::new(Shown::new(files("one")));
        let first = shown.now().number;
        let mut stream = TcpStream::connect(start(&shown)).unwrap();
        stream.write_all(b"GET /reload-news HTTP/1.1\r\n\r\n").unwrap();
        let mut told = String::new();
        let mut read_until = |wanted: &str| {
            let mut byte = [0];
            while !told.ends_with(wanted) {
                stream.read_exact(&mut byte).unwrap();
                told.push(char::from(byte[0]));
            }
        };
        read_until(&format!("data: {first:016x}\n\n"));
        shown.show(files("two"));
        let second = shown.now().number;
        assert_ne!(first, second);
        read_until(&format!("data: {second:016x}\n\n"));
        shown.show(files("one"));
        assert_eq!(shown.now().number, first);
    }

    #[test]
    fn a_port_in_use_is_passed_over_unless_it_was_asked_for() {
        let taken = listen(Some(0)).unwrap();
        let port = taken.local_addr().unwrap().port();
        let failure = listen(Some(port)).unwrap_err().to_string();
        assert!(failure.contains(&port.to_string()), "{failure}");
        let one = listen(None).unwrap();
        let two = listen(None).unwrap();
        assert_ne!(one.local_addr().unwrap(), two.local_addr().unwrap());
    }
}
