//! The body of a request: its type, its size, and how long it may take to arrive.

use super::problem::Problem;
use super::state::Shared;
use axum::body::{Body, Bytes, HttpBody};
use axum::http::header::{ACCEPT, ACCEPT_ENCODING, CONTENT_ENCODING, CONTENT_TYPE};
use axum::http::{HeaderMap, HeaderName, StatusCode};
use std::future::poll_fn;
use std::pin::pin;
use tokio::time::timeout;

/// The type of a body or of an answer.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Media {
    Json,
    /// JSON Lines: a value on each line.
    Lines,
    /// Text, such as a job sheet.
    Text,
}

impl Media {
    /// Its names, the first the one that is written.
    fn names(self) -> &'static [&'static str] {
        match self {
            Media::Json => &["application/json"],
            Media::Lines => &["application/x-ndjson", "application/jsonl", "application/json-lines"],
            Media::Text => &["text/plain"],
        }
    }

    /// The name that is written.
    pub(crate) fn name(self) -> &'static str {
        self.names().first().copied().unwrap_or_default()
    }

    /// The type of the body, one of those that can be read here.
    ///
    /// # Errors
    /// Where it is another, or is not said.
    pub(crate) fn of(headers: &HeaderMap, readable: &[Media]) -> Result<Media, Problem> {
        plain(headers)?;
        let said = headers.get(CONTENT_TYPE).and_then(|said| said.to_str().ok()).unwrap_or_default();
        let mut parts = said.split(';').map(str::trim);
        let name = parts.next().unwrap_or_default().to_ascii_lowercase();
        let charset = parts
            .filter_map(|part| part.split_once('='))
            .find(|(key, _)| key.trim().eq_ignore_ascii_case("charset"))
            .map(|(_, set)| set.trim().trim_matches('"').to_ascii_lowercase());
        let found = readable.iter().copied().find(|media| media.names().contains(&&*name));
        let list: Vec<&str> = readable.iter().map(|media| media.name()).collect();
        let list = list.join(", ");
        let wrong = |detail: String| {
            Problem::new(StatusCode::UNSUPPORTED_MEDIA_TYPE, detail)
                .help(format!("send the body as {list}, in UTF-8, and say so in `Content-Type`"))
        };
        match (found, charset.as_deref()) {
            (Some(media), None | Some("utf-8" | "utf8" | "us-ascii")) => Ok(media),
            (Some(_), Some(other)) => {
                Err(wrong(format!("the body is said to be in `{}`", crate::glossary::cut(other))))
            }
            (None, _) if said.is_empty() => Err(wrong("the type of the body is not said".into())),
            (None, _) => Err(wrong(format!("a body of type `{}` cannot be read here", crate::glossary::cut(&name)))),
        }
    }

    /// Whether the client takes an answer of this type.
    ///
    /// # Errors
    /// Where it takes only others.
    pub(crate) fn wanted(self, headers: &HeaderMap) -> Result<(), Problem> {
        let mut ranges = headers.get_all(ACCEPT).iter().filter_map(|range| range.to_str().ok()).peekable();
        let (own, _) = self.name().split_once('/').unwrap_or_default();
        let takes = |range: &str| {
            let mut parts = range.split(';').map(str::trim);
            let name = parts.next().unwrap_or_default().to_ascii_lowercase();
            let refused = parts.filter_map(|part| part.split_once('=')).any(|(key, weight)| {
                key.trim() == "q" && weight.trim().parse::<f32>().is_ok_and(|weight| weight <= 0.0)
            });
            let fits = name == "*/*"
                || name.strip_suffix("/*").is_some_and(|kind| kind == own)
                || self.names().contains(&&*name);
            fits && !refused
        };
        if ranges.peek().is_none() || ranges.flat_map(|ranges| ranges.split(',')).any(takes) {
            return Ok(());
        }
        Err(Problem::new(
            StatusCode::NOT_ACCEPTABLE,
            format!("the answer is {}, which `Accept` does not name", self.name()),
        )
        .help(format!("send `Accept: {}`, or leave the field out", self.name())))
    }
}

/// Whether the body is as it was written, and not compressed.
///
/// # Errors
/// Where it is said to be coded in any way.
pub(crate) fn plain(headers: &HeaderMap) -> Result<(), Problem> {
    let said = headers.get_all(CONTENT_ENCODING).iter().map(|said| said.to_str().unwrap_or("?"));
    let mut codings = said.flat_map(|said| said.split(',')).map(str::trim);
    match codings.find(|coding| !coding.is_empty() && !coding.eq_ignore_ascii_case("identity")) {
        None => Ok(()),
        Some(coding) => {
            let detail = format!("the body is said to be coded as `{}`", crate::glossary::cut(coding));
            Err(Problem::new(StatusCode::UNSUPPORTED_MEDIA_TYPE, detail)
                .help("send it as it is, without `Content-Encoding`")
                .field(ACCEPT_ENCODING, "identity"))
        }
    }
}

/// A text without the mark of its byte order, which some editors put first.
pub(crate) fn unmarked(bytes: &[u8]) -> &[u8] {
    bytes.strip_prefix(b"\xef\xbb\xbf").unwrap_or(bytes)
}

/// The field that holds the type of a body.
pub(crate) const TYPE: HeaderName = CONTENT_TYPE;

/// The whole body.
///
/// # Errors
/// Where it is larger than `most`, does not arrive in time, or breaks off.
pub(crate) async fn read(state: &Shared, body: Body, most: usize) -> Result<Bytes, Problem> {
    let wait = state.limits.body_time;
    timeout(wait, collect(body, most)).await.unwrap_or_else(|_| {
        let detail = format!("the body did not arrive within {} seconds", wait.as_secs_f32());
        Err(Problem::new(StatusCode::REQUEST_TIMEOUT, detail).help("send it again, whole"))
    })
}

async fn collect(body: Body, most: usize) -> Result<Bytes, Problem> {
    let too_large = || {
        Problem::new(StatusCode::PAYLOAD_TOO_LARGE, format!("the body is larger than {most} bytes"))
            .help("send a smaller body; divide a batch into several")
    };
    // A client is told before it has sent everything only where that would be far too much:
    // many do not listen until they have.
    let readable = most.saturating_mul(2);
    if body.size_hint().lower() > readable as u64 {
        return Err(too_large());
    }
    let mut body = pin!(body);
    let (mut bytes, mut size) = (Vec::new(), 0usize);
    while let Some(frame) = poll_fn(|context| body.as_mut().poll_frame(context)).await {
        let frame = frame
            .map_err(|_| Problem::new(StatusCode::BAD_REQUEST, "the body breaks off").help("send the whole body"))?;
        let Ok(data) = frame.into_data() else { continue };
        size = size.saturating_add(data.len());
        if size <= most {
            bytes.extend_from_slice(&data);
        } else if size > readable {
            break;
        }
    }
    if size > most { Err(too_large()) } else { Ok(bytes.into()) }
}
