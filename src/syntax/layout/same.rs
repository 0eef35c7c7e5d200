//! Whether a laid-out file says what it said before: the same words in the same
//! order, read as the same forms, beside the same comments.

use super::tokens::Tokens;
use crate::syntax::codes;
use crate::syntax::diagnostic::{Diagnostic, FileId, Location};
use crate::syntax::grammar::Rule;
use crate::syntax::tree::Span;
use pest::iterators::Pairs;

/// The place of a token of a file that begins behind `lead` bytes.
pub(super) fn place(file: FileId, lead: usize, tokens: &Tokens<'_>, token: usize) -> Location {
    let (start, length) = tokens.list.get(token).map_or((0, 0), |token| (token.start, token.text.len()));
    let byte = |at: usize| u32::try_from(lead + at).unwrap_or(u32::MAX);
    Location { file, span: Span { start: byte(start), end: byte(start + length) } }
}

/// The finding that a file is left as it is.
pub(super) fn refused(at: Location) -> Diagnostic {
    Diagnostic::new(codes::LAYOUT, at, "laid out, the file would say something else from here on").help(
        "a unit that is not known counts only at the end of its line: write one that is; the file stays as it was",
    )
}

/// The first token at which two texts differ: in a word, in a comment, or in what
/// the grammar makes of them. The second may be one that does not follow it, from a
/// place on.
pub(super) fn first_difference(
    was: (&Tokens<'_>, Pairs<'_, Rule>),
    is: (&Tokens<'_>, Result<Pairs<'_, Rule>, usize>),
) -> Option<usize> {
    let ((was, was_read), (is, is_read)) = (was, is);
    let words = |tokens: &Tokens<'_>| tokens.list.iter().map(|token| token.text.to_owned()).collect::<Vec<_>>();
    let (was_words, is_words) = (words(was), words(is));
    if was_words != is_words {
        return Some(was_words.iter().zip(&is_words).take_while(|(was, is)| was == is).count());
    }
    let comments = |tokens: &Tokens<'_>| {
        tokens
            .comments
            .iter()
            .map(|comment| (comment.before, comment.trails, comment.text.to_owned()))
            .collect::<Vec<_>>()
    };
    let (was_comments, is_comments) = (comments(was), comments(is));
    if was_comments != is_comments {
        let same = was_comments.iter().zip(&is_comments).take_while(|(was, is)| was == is).count();
        return Some(was_comments.get(same).map_or(0, |(before, ..)| *before));
    }
    let is_read = match is_read {
        Ok(read) => read,
        Err(at) => return Some(is.at(at)),
    };
    let (mut was_forms, mut is_forms) = (forms(was, was_read), forms(is, is_read));
    let mut last = 0;
    loop {
        match (was_forms.next(), is_forms.next()) {
            (None, None) => return None,
            (Some(was), Some(is)) if was == is => last = was.1,
            (Some(was), _) => return Some(was.1),
            (None, Some(_)) => return Some(last),
        }
    }
}

/// Every form that the grammar found, with its first token and the one behind it.
fn forms<'t>(tokens: &'t Tokens<'_>, found: Pairs<'t, Rule>) -> impl Iterator<Item = (Rule, usize, usize)> + 't {
    found.flatten().map(|pair| {
        let span = pair.as_span();
        (pair.as_rule(), tokens.at(span.start()), tokens.at(span.end()))
    })
}
