//! JSON as it was written: members in order, those of the same name included,
//! so that nothing is overwritten in silence.

use super::problem::JobProblem;
use crate::glossary::{Fault, cut, past};
use crate::syntax::codes;
use crate::syntax::limits::{FILE, JOB_NESTING};
use serde::de::{Deserialize, Deserializer, Error, MapAccess, SeqAccess, Visitor};
use std::fmt;

/// A JSON value.
#[derive(Clone, Debug, PartialEq)]
pub(super) enum Node {
    Null,
    Bool(bool),
    /// A whole number that is not negative.
    Whole(u64),
    /// Any other number.
    Number(f64),
    Text(String),
    List(Vec<Node>),
    Object(Vec<(String, Node)>),
}

impl Node {
    /// Reads JSON.
    ///
    /// # Errors
    /// Where the text is not JSON, too large or nested too deep.
    pub(super) fn read(text: &str) -> Result<Node, JobProblem> {
        let text = text.strip_prefix('\u{feff}').unwrap_or(text);
        if text.len() > FILE.most {
            return Err(JobProblem::new("", past(&FILE)));
        }
        if let Some(position) = too_deep(text) {
            let problem = JobProblem::new("", past(&JOB_NESTING));
            return Err(JobProblem { position: Some(position), ..problem });
        }
        serde_json::from_str(text).map_err(|error| {
            let position = Some((error.line(), error.column().max(1)));
            let why = error.to_string();
            let why = why.rsplit_once(" at line ").map_or(&*why, |(why, _)| why);
            let message = match error.classify() {
                serde_json::error::Category::Eof => "the text ends in the middle of the job".into(),
                _ => format!("the text is not JSON: {why}"),
            };
            let help = "a job in JSON is an object such as `{ \"place\": \"…\" }`";
            JobProblem { position, ..JobProblem::new("", Fault::new(codes::JOB, message).help(help)) }
        })
    }

    /// What it is, in words.
    pub(super) fn in_words(&self) -> String {
        match self {
            Node::Null => "`null`".into(),
            Node::Bool(truth) => format!("`{truth}`"),
            Node::Whole(number) => format!("the number `{number}`"),
            Node::Number(number) => format!("the number `{number:?}`"),
            Node::Text(text) => format!("`{}`", cut(text)),
            Node::List(_) => "a list".into(),
            Node::Object(_) => "an object".into(),
        }
    }
}

/// Where the text is first nested too deep, as line and column.
fn too_deep(text: &str) -> Option<(usize, usize)> {
    let (mut depth, mut quoted, mut escaped) = (0usize, false, false);
    let (mut line, mut column) = (1, 0);
    for c in text.chars() {
        column += 1;
        match c {
            '\n' => (line, column) = (line + 1, 0),
            _ if escaped => escaped = false,
            '\\' if quoted => escaped = true,
            '"' => quoted = !quoted,
            '[' | '{' if !quoted => {
                depth += 1;
                if depth > JOB_NESTING.most {
                    return Some((line, column));
                }
            }
            ']' | '}' if !quoted => depth = depth.saturating_sub(1),
            _ => {}
        }
    }
    None
}

impl<'de> Deserialize<'de> for Node {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Node, D::Error> {
        deserializer.deserialize_any(Reader)
    }
}

struct Reader;

impl<'de> Visitor<'de> for Reader {
    type Value = Node;

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("a JSON value")
    }

    fn visit_unit<E: Error>(self) -> Result<Node, E> {
        Ok(Node::Null)
    }

    fn visit_bool<E: Error>(self, truth: bool) -> Result<Node, E> {
        Ok(Node::Bool(truth))
    }

    fn visit_u64<E: Error>(self, number: u64) -> Result<Node, E> {
        Ok(Node::Whole(number))
    }

    fn visit_i64<E: Error>(self, number: i64) -> Result<Node, E> {
        Ok(u64::try_from(number).map_or(Node::Number(number as f64), Node::Whole))
    }

    fn visit_f64<E: Error>(self, number: f64) -> Result<Node, E> {
        Ok(Node::Number(number))
    }

    fn visit_str<E: Error>(self, text: &str) -> Result<Node, E> {
        Ok(Node::Text(text.into()))
    }

    fn visit_string<E: Error>(self, text: String) -> Result<Node, E> {
        Ok(Node::Text(text))
    }

    fn visit_seq<A: SeqAccess<'de>>(self, mut list: A) -> Result<Node, A::Error> {
        let mut all = Vec::new();
        while let Some(one) = list.next_element()? {
            all.push(one);
        }
        Ok(Node::List(all))
    }

    fn visit_map<A: MapAccess<'de>>(self, mut object: A) -> Result<Node, A::Error> {
        let mut all = Vec::new();
        while let Some(one) = object.next_entry()? {
            all.push(one);
        }
        Ok(Node::Object(all))
    }
}
