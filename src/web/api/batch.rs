//! `POST /api/batch`: many jobs in, for each its verdict or its problem out.
//!
//! Rows are answered a few at a time, and the next when the client has taken those
//! before: neither the answer as a whole nor a slot is held for a slow client.

use super::super::body::{self, Media, TYPE};
use super::super::problem::Problem;
use super::super::state::Shared;
use super::super::work::work;
use super::verdict::answer;
use crate::syntax::limits::JOBS;
use axum::body::{Body, Bytes};
use axum::extract::State;
use axum::http::{HeaderMap, StatusCode};
use axum::response::{IntoResponse, Response};
use hyper::body::Frame;
use serde_json::value::RawValue;
use std::convert::Infallible;
use std::ops::Range;
use std::pin::Pin;
use std::sync::Arc;
use std::task::{Context, Poll};
use tokio::sync::mpsc::{Receiver, Sender, channel};

/// How many rows are answered in one turn.
const AT_ONCE: usize = 8;

/// Verdicts on many jobs, each row for itself
///
/// A list of jobs is answered by a list; JSON Lines, a job on each line, by JSON Lines. Each row is answered in its
/// place by its verdict or, where it cannot be used, by a problem with the number of the row; a bad row never spoils
/// the others. Empty lines are passed over.
#[utoipa::path(post, path = "/api/batch", operation_id = "batch", tag = "jobs",
    request_body(description = "The jobs", content(
        (ref("#/components/schemas/Rows") = "application/json"),
        (String = "application/x-ndjson", example = "{\"place\": \"stonecroft\"}\n{\"place\": \"osier\"}\n"))),
    responses((status = 200, description = "A verdict or a problem for each row", content(
        (ref("#/components/schemas/Answers") = "application/json"), (String = "application/x-ndjson")))))]
pub(crate) async fn batch(State(state): State<Shared>, headers: HeaderMap, sent: Body) -> Result<Response, Problem> {
    let media = Media::of(&headers, &[Media::Json, Media::Lines])?;
    media.wanted(&headers)?;
    let bytes = body::read(&state, sent, state.limits.batch).await?;
    let rows = work(&state, move |_| Rows::find(media, bytes)).await??;
    let (sender, receiver) = channel(1);
    tokio::spawn(tell(state, rows, sender));
    Ok(([(TYPE, media.name())], Body::new(Told(receiver))).into_response())
}

/// Where the rows of a text stand.
struct Rows {
    media: Media,
    bytes: Bytes,
    rows: Vec<Range<usize>>,
}

impl Rows {
    /// Finds the rows, without looking into them.
    fn find(media: Media, bytes: Bytes) -> Result<Rows, Problem> {
        let unreadable = |detail: String| {
            Problem::new(StatusCode::BAD_REQUEST, detail)
                .help("send a list of jobs in JSON, or a job on each line as application/x-ndjson")
        };
        let text = std::str::from_utf8(&bytes).map_err(|_| unreadable("the body is not UTF-8".into()))?;
        let text = text.strip_prefix('\u{feff}').unwrap_or(text);
        let place = |row: &str| {
            let start = (row.as_ptr() as usize).saturating_sub(bytes.as_ptr() as usize);
            start..start + row.len()
        };
        let rows: Vec<Range<usize>> = match media {
            Media::Lines => text.lines().map(str::trim).filter(|line| !line.is_empty()).map(place).collect(),
            _ => {
                let read: Vec<&RawValue> = serde_json::from_str(text)
                    .map_err(|problem| unreadable(format!("the body is not a list in JSON: {problem}")))?;
                read.into_iter().map(|row| place(row.get())).collect()
            }
        };
        if rows.len() > JOBS.most {
            return Err(Problem::new(
                StatusCode::PAYLOAD_TOO_LARGE,
                format!("the batch has {} rows, more than {}", rows.len(), JOBS.most),
            )
            .help(JOBS.help));
        }
        Ok(Rows { media, bytes, rows })
    }

    /// The text of some rows, each with its number.
    fn some(&self, of: Range<usize>) -> Vec<(usize, Bytes)> {
        let first = of.start;
        let rows = self.rows.get(of).unwrap_or_default();
        (first + 1..).zip(rows).map(|(number, row)| (number, self.bytes.slice(row.clone()))).collect()
    }

    /// An answer as it stands in the whole.
    fn written(&self, number: usize, value: &serde_json::Value) -> String {
        match self.media {
            Media::Lines => format!("{value}\n"),
            // As a list is written, each line of it two letters further in.
            _ => {
                format!("{}{}", if number == 1 { "\n  " } else { ",\n  " }, format!("{value:#}").replace('\n', "\n  "))
            }
        }
    }
}

/// Answers the rows one after the other, as long as somebody takes the answers.
async fn tell(state: Shared, rows: Rows, to: Sender<Bytes>) {
    let rows = Arc::new(rows);
    let list = rows.media != Media::Lines;
    if list && to.send(Bytes::from_static(b"[")).await.is_err() {
        return;
    }
    let all = rows.rows.len();
    for start in (0..all).step_by(AT_ONCE) {
        let end = all.min(start + AT_ONCE);
        let here = Arc::clone(&rows);
        // Nobody waits for what comes when the client has gone.
        let done = tokio::select! {
            done = work(&state, move |state| answered(state, &here, start..end)) => done,
            () = to.closed() => return,
        };
        let text = done.unwrap_or_else(|problem| {
            let told = (start..end).map(|at| rows.written(at + 1, &problem.clone().row(at + 1).value()));
            told.collect()
        });
        if to.send(text.into()).await.is_err() {
            return;
        }
    }
    if list {
        let end: &'static [u8] = if all == 0 { b"]\n" } else { b"\n]\n" };
        let _gone = to.send(Bytes::from_static(end)).await;
    }
}

fn answered(state: &Shared, rows: &Rows, of: Range<usize>) -> String {
    let mut text = String::new();
    for (number, row) in rows.some(of) {
        let value = match answer(&state.rules, Media::Json, &row, &format!("row {number}")) {
            Ok((value, outcome)) => {
                if let Some(metrics) = &state.metrics {
                    metrics.told(outcome);
                }
                value
            }
            Err(problem) => problem.row(number).value(),
        };
        text.push_str(&rows.written(number, &value));
    }
    text
}

/// An answer that comes piece by piece.
struct Told(Receiver<Bytes>);

impl hyper::body::Body for Told {
    type Data = Bytes;
    type Error = Infallible;

    fn poll_frame(
        mut self: Pin<&mut Self>,
        context: &mut Context<'_>,
    ) -> Poll<Option<Result<Frame<Bytes>, Infallible>>> {
        self.0.poll_recv(context).map(|piece| piece.map(|piece| Ok(Frame::data(piece))))
    }
}
