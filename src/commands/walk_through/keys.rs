//! Lines that are no answers: the words with which the talk itself is led, in
//! both languages whatever the talk is in.

use crate::interview::Step;

/// What a line asks for.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum Line {
    Answer(String),
    /// Nothing was written.
    Empty,
    Back,
    /// With `all` also what was set aside.
    Why {
        all: bool,
    },
    List,
    Help,
    Change(String),
    Drop(String),
    Save(Option<String>),
    Done,
    Stop,
}

/// What a line asks for while a step is put. A line that is just the name of
/// something to pick is that answer, and so is what stands in quotes.
pub(super) fn line(text: &str, step: &Step<'_>) -> Line {
    let text = text.trim();
    if text.is_empty() {
        return Line::Empty;
    }
    let answer = || Line::Answer(text.to_owned());
    if step.form.picks().iter().any(|pick| pick.name == text) {
        return answer();
    }
    let (head, rest) = text.split_once(char::is_whitespace).unwrap_or((text, ""));
    let rest = rest.trim().to_owned();
    let lower = head.to_lowercase();
    match (&*lower, rest.is_empty()) {
        ("back" | "atrás" | "atras", true) => Line::Back,
        ("why" | "why?", true) => Line::Why { all: false },
        ("why", false) if rest.eq_ignore_ascii_case("all") => Line::Why { all: true },
        ("por" | "¿por", false) => match &*rest.to_lowercase() {
            "qué" | "que" | "qué?" | "que?" => Line::Why { all: false },
            "qué todo" | "que todo" => Line::Why { all: true },
            _ => answer(),
        },
        ("list" | "lista", true) => Line::List,
        ("help" | "ayuda", true) => Line::Help,
        ("change" | "cambiar", _) => Line::Change(rest),
        ("drop" | "quitar", _) => Line::Drop(rest),
        ("save" | "guardar", none) => Line::Save((!none).then_some(rest)),
        ("done" | "listo", true) => Line::Done,
        ("stop" | "parar", true) => Line::Stop,
        _ => answer(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn words_in_both_languages() {
        let step = Step::first();
        for (text, meant) in [
            ("back", Line::Back),
            (" Atrás ", Line::Back),
            ("why", Line::Why { all: false }),
            ("why all", Line::Why { all: true }),
            ("¿por qué?", Line::Why { all: false }),
            ("por que todo", Line::Why { all: true }),
            ("change 3", Line::Change("3".into())),
            ("cambiar jumper.size", Line::Change("jumper.size".into())),
            ("drop run 2", Line::Drop("run 2".into())),
            ("save", Line::Save(None)),
            ("save my house.job", Line::Save(Some("my house.job".into()))),
            ("stop", Line::Stop),
            ("listo", Line::Done),
            ("", Line::Empty),
            ("back street", Line::Answer("back street".into())),
            ("\"list\"", Line::Answer("\"list\"".into())),
            ("change", Line::Change(String::new())),
            ("Quitar", Line::Drop(String::new())),
            ("\"drop\"", Line::Answer("\"drop\"".into())),
            ("?", Line::Answer("?".into())),
        ] {
            assert_eq!(line(text, &step), meant, "{text}");
        }
    }
}
