//! Limits, letters that are refused, and input that was never meant to be read.

use super::{bad, bad_job, codes_of, good, pointed, shown};
use crate::syntax::codes::{self, Code};
use crate::syntax::diagnostic::{FileId, Severity};
use crate::syntax::nearest::{did_you_mean, nearest};
use crate::syntax::tree::Item;
use crate::syntax::{Kind, limits, parse, parse_bytes};
use std::time::{Duration, Instant};

fn only(text: &str) -> (Code, String, String) {
    let parsed = bad(text);
    assert_eq!(parsed.diagnostics.len(), 1, "{}", shown(text, &parsed.diagnostics));
    let one = &parsed.diagnostics[0];
    (one.code, pointed(text, one).to_owned(), one.message.clone())
}

/// A passed limit is refused by its name.
fn passes(text: &str, limit: &limits::Limit) {
    let (code, _, message) = only(text);
    assert_eq!(code, codes::LIMIT);
    assert!(message.contains(&format!("`{}`", limit.name)), "{message}");
}

#[test]
fn a_file_holds_sixteen_mebibytes() {
    let fits = format!("subject s{}", " ".repeat(limits::FILE.most - 9));
    assert_eq!(fits.len(), limits::FILE.most);
    assert_eq!(good(&fits).items.len(), 1);
    let larger = format!("{fits} ");
    for parsed in [bad(&larger), parse_bytes(FileId(0), larger.as_bytes(), Kind::Rules)] {
        assert_eq!(codes_of(&parsed), [codes::LIMIT]);
        assert!(parsed.diagnostics[0].message.contains(limits::FILE.name));
        assert!(parsed.tree.items.is_empty());
    }
}

#[test]
fn a_name_holds_sixty_four_characters() {
    good(&format!("subject {}", "a".repeat(64)));
    passes(&format!("subject {}", "a".repeat(65)), &limits::NAME);
    passes(&format!("instrument {}-1 kind order status proposed", "A".repeat(63)), &limits::NAME);
    // The parts of a path are counted one by one.
    good(&format!("place x \"X\" within {}/{}", "a".repeat(64), "b".repeat(64)));
}

#[test]
fn a_number_holds_eighteen_digits() {
    let figure = |digits: &str| format!("edition IFGC 2021 section 1 q at most {digits} ft");
    good(&figure(&"9".repeat(18)));
    passes(&figure(&"9".repeat(19)), &limits::NUMBER);
    passes(&figure(&format!("1.{}", "0".repeat(18))), &limits::NUMBER);
    passes(&figure(&"9".repeat(1000)), &limits::NUMBER);
}

#[test]
fn a_text_holds_four_thousand_characters() {
    good(&format!("subject s \"{}\"", "é".repeat(4000)));
    good(&format!("subject s \"{}\"", "\\\"".repeat(4000)));
    passes(&format!("subject s \"{}\"", "é".repeat(4001)), &limits::TEXT);
    passes(&format!("subject s \"{}\"", "\\\"".repeat(4001)), &limits::TEXT);
}

#[test]
fn conditions_nest_two_hundred_deep() {
    let deep = |open: &str, close: &str, levels: usize| {
        format!("definition d {}a is b{}", open.repeat(levels), close.repeat(levels))
    };
    good(&deep("(", ")", 200));
    passes(&deep("(", ")", 201), &limits::NESTING);
    good(&deep("not ", "", 200));
    passes(&deep("not ", "", 201), &limits::NESTING);
    good(&deep("not (", ")", 100));
    passes(&deep("not (", ")", 101), &limits::NESTING);
    good(&deep("any run with (", ")", 200));
    passes(&deep("any run with (", ")", 201), &limits::NESTING);
}

/// The deepest tree that is read fits into a small stack, dropping it included.
#[test]
fn the_deepest_tree_fits_a_small_stack() {
    let worker = std::thread::Builder::new().stack_size(2 * 1024 * 1024).spawn(|| {
        let text = format!("definition d {}a is b{}", "any run with (".repeat(200), ")".repeat(200));
        let parsed = parse(FileId(0), &text, Kind::Rules);
        assert!(parsed.diagnostics.is_empty());
        let again = parsed.tree.clone();
        assert_eq!(again, parsed.tree);
    });
    worker.unwrap().join().unwrap();
}

#[test]
fn a_hundred_thousand_levels_are_refused() {
    for open in ["(", "not ", "not (", "{", "any run with (", "A(", "A(b(", "run { "] {
        for head in ["definition d ", "", "edition IFGC 2021 section ", "example \"e\" job "] {
            passes(&format!("{head}{}", open.repeat(100_000)), &limits::NESTING);
        }
        let parsed = bad_job(&open.repeat(100_000));
        assert_eq!(codes_of(&parsed), [codes::LIMIT]);
    }
    // Levels that close again do not add up.
    let flat = format!("definition d a is b{}", " and (a is b)".repeat(10_000));
    assert_eq!(good(&flat).items.len(), 1);
}

#[test]
fn bytes_that_are_no_text_are_refused_at_their_place() {
    let parsed = parse_bytes(FileId(7), b"subject a\n\xff\xfe", Kind::Rules);
    assert_eq!(codes_of(&parsed), [codes::NOT_UTF8]);
    assert_eq!((parsed.diagnostics[0].at.file, parsed.diagnostics[0].at.span.start), (FileId(7), 10));
    assert_eq!(codes_of(&parse_bytes(FileId(0), &[0xe2, 0x82], Kind::Job)), [codes::NOT_UTF8]);
    assert!(parse_bytes(FileId(0), b"subject a", Kind::Rules).diagnostics.is_empty());
}

#[test]
fn control_characters_are_refused_everywhere() {
    for text in [
        "subject\0a",
        "subject a \"b\0c\"",
        "# a\u{7}",
        "subject a \"b\u{85}c\"",
        "subject\u{1}a",
        "subject a \"\u{2028}\"",
        "subject a\rsubject b",
        "subject a \u{7f}",
    ] {
        assert_eq!(only(text).0, codes::CONTROL_CHARACTER, "{text:?}");
    }
    assert!(only("subject\0a").2.contains("NUL"));
}

#[test]
fn letters_that_look_alike_are_named() {
    for (text, name, help) in [
        ("subject c\u{43e}dford", "Cyrillic letter o", "`o`"),
        ("subject a\u{2011}b", "non-breaking hyphen", "`-`"),
        ("subject\u{a0}a", "no-break space", "plain blank"),
        ("place x “X”", "typographic quote", "`\"`"),
        ("place x «X»", "typographic quote", "`\"`"),
        ("subject a\u{200b}", "zero width space", "take it out"),
        ("subject ａ", "full-width letter", "`a`"),
        ("subject größe", "`ö` (U+00F6)", "a to z"),
    ] {
        let parsed = bad(text);
        let one = &parsed.diagnostics[0];
        assert_eq!(one.code, codes::LOOK_ALIKE);
        assert!(one.message.contains(name), "{}", one.message);
        assert!(one.help.as_deref().unwrap().contains(help), "{:?}", one.help);
    }
    // In texts and comments every language may be written.
    good("# größe о\nplace x \"Größe о “x”\"");
}

#[test]
fn what_turns_the_direction_of_writing_is_refused_everywhere() {
    for text in ["# a\u{202e}b", "subject a \"b\u{2066}c\"", "subject a\u{200f}", "subject \u{61c}a"] {
        let (code, at, message) = only(text);
        assert_eq!((code, at.chars().count()), (codes::BIDI_CONTROL, 1), "{message}");
    }
}

#[test]
fn an_open_text_is_shown_at_its_own_place() {
    let text = "place x \"X\n office \"o\"\nplace y \"Y\"";
    let parsed = bad(text);
    assert_eq!(codes_of(&parsed), [codes::UNFINISHED_TEXT]);
    assert_eq!(pointed(text, &parsed.diagnostics[0]), "\"X");
    assert_eq!(parsed.tree.items.len(), 2);
    for text in ["place x \"", "place x \"\n", "place x \"abc\\\"", "place x \"abc\\", "place x \"é", "place x “abc"]
    {
        assert!(codes_of(&bad(text)).contains(&codes::UNFINISHED_TEXT), "{text}");
    }
    let (code, at, _) = only("place x \"a\\nb\"");
    assert_eq!((code, at.as_str()), (codes::SYNTAX, "\\"));
}

#[test]
fn dates_of_any_year_are_kept_as_written() {
    for date in ["9999-12-31", "0001-01-01", "2024-13-45", "2024-2-3"] {
        let Item::Edition(edition) = good(&format!("edition IFGC 2021 published {date}")).items.remove(0) else {
            panic!()
        };
        assert_eq!(&*edition.published.unwrap().text, date);
    }
}

#[test]
fn codes_from_5000_on_are_warnings() {
    assert_eq!(Code::from(5000).severity(), Severity::Warning);
    assert_eq!(codes::SYNTAX.severity(), Severity::Error);
    assert_eq!(codes::SYNTAX.to_string(), "GR0200");
}

#[test]
fn near_names() {
    assert_eq!(nearest("ocupancy", ["occupancy", "work", "gas"]), ["occupancy"]);
    assert_eq!(nearest("arc-resistent", ["arc-resistant", "plain"]), ["arc-resistant"]);
    assert_eq!(nearest("wrok", ["work", "word"]), ["work"]);
    assert_eq!(nearest("abcdef", ["badcfe"]), Vec::<&str>::new());
    assert_eq!(nearest("gsa", ["gas", "gsab", "gs"]), ["gas", "gs", "gsab"]);
    assert_eq!(
        nearest("material", ["matrial", "materials", "amterial", "materiel"]),
        ["amterial", "materials", "materiel"]
    );
    assert!(nearest("x", ["gas", "work"]).is_empty());
    assert!(nearest("", ["gas"]).is_empty());
    assert_eq!(nearest("gas", ["gas", "gas"]), ["gas"]);
    assert_eq!(nearest("größe", ["grösse", "größ"]), ["größ"]);
    assert_eq!(did_you_mean(&["a", "b", "c"]).as_deref(), Some("did you mean `a`, `b` or `c`?"));
    assert_eq!(did_you_mean(&[]), None);
}

/// The distance of the textbook, without the bounds of the real one.
fn slips(one: &[char], other: &[char]) -> usize {
    match (one.split_last(), other.split_last()) {
        (None, _) => other.len(),
        (_, None) => one.len(),
        (Some((a, one_rest)), Some((b, other_rest))) => {
            let mut best = (slips(one_rest, other_rest) + usize::from(a != b))
                .min(slips(one_rest, other) + 1)
                .min(slips(one, other_rest) + 1);
            if let (Some((c, one_more)), Some((d, other_more))) = (one_rest.split_last(), other_rest.split_last())
                && (a, c) == (d, b)
            {
                best = best.min(slips(one_more, other_more) + 1);
            }
            best
        }
    }
}

#[test]
fn near_names_agree_with_the_textbook() {
    let mut dice = Dice(7);
    for _ in 0..4000 {
        let word = |dice: &mut Dice| -> String { (0..dice.below(6)).map(|_| ['a', 'b', 'c'][dice.below(3)]).collect() };
        let (one, other) = (word(&mut dice), word(&mut dice));
        let (a, b): (Vec<char>, Vec<char>) = (one.chars().collect(), other.chars().collect());
        let near = slips(&a, &b) <= (a.len() / 3).clamp(1, 3);
        assert_eq!(!nearest(&one, [other.as_str()]).is_empty(), near, "{one} {other}");
    }
}

/// A small source of numbers that are the same in every run.
struct Dice(u64);

impl Dice {
    fn below(&mut self, most: usize) -> usize {
        self.0 = self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        (self.0 >> 33) as usize % most
    }
}

/// Whatever is done to a good file, reading it ends with a tree and places that lie in the file.
fn survives(text: &str, kind: Kind) {
    let parsed = parse(FileId(0), text, kind);
    for one in &parsed.diagnostics {
        let span = one.at.span;
        assert!(text.get(span.start as usize..span.end as usize).is_some(), "{text:?}\n{one:?}");
        assert!(!one.message.is_empty() && !one.message.ends_with('.') && !one.message.contains('\u{1}'), "{one:?}");
        for (also, _) in &one.also {
            assert!(text.get(also.span.start as usize..also.span.end as usize).is_some(), "{one:?}");
        }
    }
    assert!(parsed.diagnostics.len() <= 2 * limits::SHOWN);
}

#[test]
fn spoiled_files_are_survived() {
    let samples =
        [super::design::GLOSSARY, super::design::PLACES, super::design::EXAMPLE, super::design::EXAMPLE_PLACES];
    let bits = [
        "(", ")", "\"", "{", "}", ",", "#", "\n", " ", "not ", "é", "“", "\u{202e}", "\0", "1", "AWG", "where ",
        "place ", "\\", ".", "over", "\r", "…", "and",
    ];
    let mut dice = Dice(1);
    for round in 0..400 {
        let mut text = samples[round % samples.len()].to_owned();
        for _ in 0..=dice.below(6) {
            let mut at = dice.below(text.len());
            while !text.is_char_boundary(at) {
                at -= 1;
            }
            match dice.below(3) {
                0 => text.insert_str(at, bits[dice.below(bits.len())]),
                1 => drop(text.remove(at)),
                _ => text.truncate(at.max(1)),
            }
            if text.is_empty() {
                text.push('a');
            }
        }
        survives(&text, Kind::Rules);
        survives(&text, Kind::Job);
    }
}

#[test]
fn chance_is_survived() {
    let words = [
        "place",
        "x",
        "\"t\"",
        "where",
        "(",
        ")",
        "is",
        "any",
        "of",
        ",",
        "1",
        "ft",
        "IFGC",
        "2021",
        "section",
        "310.1",
        "not",
        "over",
        "by",
        "table",
        "in",
        "force",
        "from",
        "2020-01-01",
        "{",
        "}",
        "with",
        "choice",
        "example",
        "job",
        "verdict",
        "\n",
        "amend",
        "replace",
        "none",
        "at",
        "least",
    ];
    let mut dice = Dice(3);
    for _ in 0..400 {
        let text: Vec<&str> = (0..dice.below(40)).map(|_| words[dice.below(words.len())]).collect();
        survives(&text.join(" "), Kind::Rules);
        survives(&text.join(" "), Kind::Job);
        let bytes: Vec<u8> = (0..dice.below(60)).map(|_| dice.below(256) as u8).collect();
        parse_bytes(FileId(0), &bytes, Kind::Rules);
        survives(&String::from_utf8_lossy(&bytes), Kind::Rules);
    }
}

/// Long and hopeless files end soon: nothing is read over and over.
#[test]
fn hopeless_files_end_soon() {
    let size = 96 * 1024;
    let files = [
        "a ".repeat(size / 2),
        "place x \"X\"\n alos \"y\"\n".repeat(size / 24),
        format!("edition IFGC 2021\n{}", "section 1\n  sumary \"s\"\n".repeat(size / 24)),
        format!("edition IFGC 2021\n{} ) ", "section 1\n  summary \"s\"\n".repeat(size / 24)),
        format!("choice c\n{}", "a\n".repeat(size / 2)),
        format!("definition d a is b{} or", " or a is b".repeat(size / 11)),
        "(".repeat(150) + &"a is b and ".repeat(size / 11),
        "\"".repeat(size),
        "#\n".repeat(size / 2),
        "\u{430}".repeat(size / 2),
        "A(".repeat(190),
        "1.".repeat(size / 2),
    ];
    for text in files {
        for kind in [Kind::Rules, Kind::Job] {
            let start = Instant::now();
            survives(&text, kind);
            // A debug build on a busy machine: far above what is needed, far below what going over it again would take.
            assert!(start.elapsed() < Duration::from_secs(20), "{:?}", text.get(..40));
        }
    }
}
