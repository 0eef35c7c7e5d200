//! `groundrule counter`: serves the tool over HTTP, as an API and as pages.

use super::options::{As, RulesOptions};
use super::status::Status;
use super::{files, screen};
use crate::report::finding::Finding;
use crate::web::{self, Limits, Settings};
use clap::Args;
use std::net::{IpAddr, Ipv4Addr, SocketAddr};
use std::path::PathBuf;

/// Serves the tool in a browser and as an API, on this machine alone unless it is told otherwise
///
/// The address stands on the first line of standard output. Ctrl-C ends it; requests that have begun are finished.
#[derive(Args, Debug)]
pub(crate) struct Counter {
    /// The port; 0 takes a free one.
    #[arg(long, value_name = "N", default_value_t = 8417)]
    port: u16,
    /// The address of this machine to listen on; others than its own alone can reach any but 127.0.0.1 and ::1, which
    /// needs a token.
    #[arg(long, value_name = "ADDR", default_value_t = IpAddr::V4(Ipv4Addr::LOCALHOST), value_parser = address)]
    host: IpAddr,
    /// A file with the token that every request has to bring; without it the variable GROUNDRULE_TOKEN is read.
    #[arg(long, value_name = "FILE")]
    token_file: Option<PathBuf>,
    /// Do not open the browser.
    #[arg(long)]
    no_open: bool,
    /// Count requests, and show the counts at /metrics.
    #[arg(long)]
    metrics: bool,
    #[command(flatten)]
    rules: RulesOptions,
}

/// The variable that holds the token where no file is named.
const TOKEN: &str = "GROUNDRULE_TOKEN";

/// The letters that a token has at least: it is not to be guessed.
const TOKEN_LETTERS: usize = 16;

fn address(text: &str) -> Result<IpAddr, String> {
    match text {
        "localhost" => Ok(IpAddr::V4(Ipv4Addr::LOCALHOST)),
        other => {
            let bare = other.strip_prefix('[').and_then(|rest| rest.strip_suffix(']')).unwrap_or(other);
            bare.parse().map_err(|_| "write an address of this machine, such as 127.0.0.1, ::1 or 0.0.0.0".to_owned())
        }
    }
}

/// Why it is not started.
enum Trouble {
    Findings(Vec<Finding>),
    Usage { message: String, help: &'static str },
}

impl Counter {
    /// Serves until it is told to stop.
    pub(crate) fn run(self) -> Status {
        match self.settings() {
            Ok(settings) => self.serve(settings),
            Err(Trouble::Findings(findings)) => {
                screen::report(&findings, As::Text);
                Status::Unusable
            }
            Err(Trouble::Usage { message, help }) => {
                screen::complain(&format!("error: {message}\n  help: {help}\n"));
                Status::Usage
            }
        }
    }

    fn settings(&self) -> Result<Settings, Trouble> {
        let token = self.token()?;
        if !self.host.is_loopback() && token.is_none() {
            return Err(Trouble::Usage {
                message: format!("{} can be reached from other machines, and no token is set", self.host),
                help: "put a token into a file and name it with --token-file, or into GROUNDRULE_TOKEN; or leave --host out",
            });
        }
        let rules = self.rules.load_with_areas().map_err(Trouble::Findings)?;
        let processors = std::thread::available_parallelism().map_or(1, usize::from);
        Ok(Settings {
            rules,
            listen: SocketAddr::new(self.host, self.port),
            token,
            metrics: self.metrics,
            today: screen::today,
            limits: Limits::of(processors),
        })
    }

    fn token(&self) -> Result<Option<String>, Trouble> {
        let unfit = |message: String| Trouble::Usage {
            message,
            help: "take at least 16 letters and figures, such as `openssl rand -hex 24` prints",
        };
        let (from, text) = match &self.token_file {
            Some(path) => {
                let bytes = files::read(path).map_err(|problem| Trouble::Findings(vec![problem]))?;
                (files::name(path), String::from_utf8_lossy(&bytes).into_owned())
            }
            None => match std::env::var_os(TOKEN) {
                None => return Ok(None),
                Some(set) => (TOKEN.to_owned(), set.to_string_lossy().into_owned()),
            },
        };
        let token = text.trim();
        if token.chars().count() < TOKEN_LETTERS {
            return Err(unfit(format!("the token in {from} has fewer than {TOKEN_LETTERS} letters")));
        }
        if !token.chars().all(|letter| letter.is_ascii_graphic()) {
            return Err(unfit(format!("the token in {from} holds blanks or letters that a header field cannot bring")));
        }
        Ok(Some(token.to_owned()))
    }

    fn serve(&self, settings: Settings) -> Status {
        if !self.host.is_loopback() {
            screen::complain(&format!(
                "warning: other machines can reach {}. Jobs and the token travel unencrypted: put a server in front \
                 that speaks TLS\n",
                self.host
            ));
        }
        let listen = settings.listen;
        let served = web::serve(settings, |at| {
            screen::print(&format!("http://{at}\n"));
            if !self.no_open {
                open_browser(at);
            }
        });
        match served {
            Ok(()) => Status::Done,
            Err(problem) => {
                screen::complain(&format!(
                    "error: {listen} cannot be listened on: {}\n  help: take another --port, or 0 for any free one\n",
                    files::in_words(&problem)
                ));
                Status::Unusable
            }
        }
    }
}

/// Opens the browser; where that fails it is told, and the server goes on.
fn open_browser(at: SocketAddr) {
    // An address that stands for all of them is none to be called by.
    let host = if at.ip().is_unspecified() { IpAddr::V4(Ipv4Addr::LOCALHOST) } else { at.ip() };
    let page = format!("http://{}/", SocketAddr::new(host, at.port()));
    if let Err(problem) = open::that_detached(&page) {
        let why = files::in_words(&problem);
        screen::complain(&format!("warning: the browser cannot be opened: {why}\n  help: open {page} yourself\n"));
    }
}
