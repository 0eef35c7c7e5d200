//! Pages as a browser shows and prints them. Chromium renders, `pdftotext` and its
//! siblings of poppler read what was printed; `tests/all` installs both. The pictures
//! stay in the target folder, to be looked at.

#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::indexing_slicing,
    clippy::string_slice,
    reason = "a test may panic"
)]

mod papers;
mod pictures;

use std::path::{Path, PathBuf};
use std::process::Command;

/// Where the pictures go.
fn shelf() -> PathBuf {
    let shelf = Path::new(env!("CARGO_TARGET_TMPDIR")).parent().unwrap().join("effect");
    std::fs::create_dir_all(&shelf).unwrap();
    shelf
}

/// The page of an effect.
fn page(arguments: &[&str]) -> String {
    let done = Command::new(env!("CARGO_BIN_EXE_groundrule"))
        .current_dir(Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/commands/data/effect"))
        .arg("effect")
        .args(arguments)
        .args(["--as", "html"])
        .output()
        .unwrap();
    assert!(done.status.success(), "{}", String::from_utf8_lossy(&done.stderr));
    String::from_utf8(done.stdout).unwrap()
}

fn ran(command: &mut Command) -> String {
    let done = command.output().unwrap_or_else(|problem| {
        panic!("{} cannot be run ({problem}); `tests/all` installs it", command.get_program().to_string_lossy())
    });
    assert!(done.status.success(), "{command:?}: {}", String::from_utf8_lossy(&done.stderr));
    String::from_utf8(done.stdout).unwrap()
}

/// Lets the browser show a page; gives what it says of it.
fn browser(page: &Path, arguments: &[String]) -> String {
    let profile = tempfile::tempdir().unwrap();
    ran(Command::new("chromium")
        .args(["--headless", "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run"])
        .args(["--disable-background-networking", "--disable-component-update", "--disable-sync"])
        .args(["--hide-scrollbars", "--no-pdf-header-footer"])
        .arg(format!("--user-data-dir={}", profile.path().display()))
        .args(arguments)
        .arg(format!("file://{}", page.display())))
}

/// A page as a picture and as print on a paper.
struct Shown {
    text: String,
    pages: usize,
    pdf: PathBuf,
}

fn show(name: &str, html: &str, paper: &str) -> Shown {
    let shelf = shelf();
    let file = shelf.join(format!("{name}.html"));
    // A printer's paper is chosen outside the page; here a line stands for the choice.
    let sized = html.replacen("</style>", &format!("@page {{ size: {paper}; }}\n</style>"), 1);
    std::fs::write(&file, sized).unwrap();
    let png = shelf.join(format!("{name}.png"));
    browser(&file, &["--window-size=900,2400".to_owned(), format!("--screenshot={}", png.display())]);
    let bytes = std::fs::read(&png).unwrap();
    assert_eq!(&bytes[1..4], b"PNG");
    assert!(bytes.len() > 20_000, "{name}: a picture of {} bytes is blank", bytes.len());
    let pdf = shelf.join(format!("{name}.pdf"));
    browser(&file, &[format!("--print-to-pdf={}", pdf.display())]);
    let about = ran(Command::new("pdfinfo").arg(&pdf));
    let pages = about.lines().find_map(|line| line.strip_prefix("Pages:")).unwrap().trim().parse().unwrap();
    let text = ran(Command::new("pdftotext").args(["-layout".as_ref(), pdf.as_os_str(), "-".as_ref()]));
    let size = about.lines().find(|line| line.starts_with("Page size:")).unwrap();
    assert!(size.to_lowercase().contains(&paper.to_lowercase()), "{name}: {size}");
    Shown { text: text.split_whitespace().collect::<Vec<_>>().join(" "), pages, pdf }
}

#[test]
fn an_amendment_is_printed_on_either_paper() {
    let html = page(&["amendment.rule", "--place", "merrin"]);
    for (name, paper) in [("amendment-letter", "letter"), ("amendment-a4", "A4")] {
        let shown = show(name, &html, paper);
        for text in [
            "What amendment.rule changes in City of Merrin",
            "2 of 21 questions are answered otherwise for some jobs.",
            "At most 75 ft → at most 50 ft",
            "there is CSST without an arc-resistant listing, connectors apart",
            "applied for on or after 2027-01-01",
            // A detail that is closed on the screen is open on paper.
            "application-date 2027-01-01",
            "jumper-length at most 50 ft",
            "the authority having jurisdiction decides",
            "Page 1 of",
            "The rules of State of Tamarrow and City of Merrin were last read on 2026-11-24",
        ] {
            assert!(shown.text.contains(text), "{name}: `{text}` is not in\n{}", shown.text);
        }
        assert!(shown.text.contains(&format!("Page {} of {}", shown.pages, shown.pages)), "{name}");
        nothing_is_cut_off(&shown.pdf);
        every_page_has_ink(&shown.pdf);
    }
}

#[test]
fn a_long_comparison_is_printed_whole() {
    let html = page(&["--place", "osier", "--against", "merrin", "--from", "2024-01-01"]);
    let shown = show("neighbours", &html, "letter");
    for text in ["How City of Merrin differs from Osier County", "Where the jumper may land", "What the words mean"] {
        assert!(shown.text.contains(text), "{text}");
    }
    let changes = html.matches("example &quot;").count();
    assert!(changes > 10, "{changes}");
    // Each change shows its job on paper.
    assert_eq!(shown.text.matches("place tamarrow/merrin").count(), changes);
    nothing_is_cut_off(&shown.pdf);
}

#[test]
fn two_sets_of_rules_are_shown() {
    let html =
        page(&["before.rule", "after.rule", "--rules", "glossary.rule", "--without-library", "--place", "combe"]);
    let shown = show("two-sets", &html, "letter");
    for text in
        ["What after.rule answers otherwise than before.rule in Town of Combe", "At least 2 inch → at least 3 inch"]
    {
        assert!(shown.text.contains(text), "{text}");
    }
    every_page_has_ink(&shown.pdf);
}

/// A figure that is told of a page or a word.
fn figure(line: &str, name: &str) -> f64 {
    let from = line.find(&format!("{name}=\"")).unwrap() + name.len() + 2;
    line[from..].split('"').next().unwrap().parse().unwrap()
}

/// Every word stands within its page.
fn nothing_is_cut_off(pdf: &Path) {
    let boxes = ran(Command::new("pdftotext").args(["-bbox".as_ref(), pdf.as_os_str(), "-".as_ref()]));
    let (mut width, mut height, mut words) = (0.0, 0.0, 0);
    for line in boxes.lines().map(str::trim) {
        if line.starts_with("<page ") {
            (width, height) = (figure(line, "width"), figure(line, "height"));
        } else if line.starts_with("<word ") {
            let inside = figure(line, "xMin") >= 0.0
                && figure(line, "yMin") >= 0.0
                && figure(line, "xMax") <= width
                && figure(line, "yMax") <= height;
            assert!(inside, "{}: {line}", pdf.display());
            words += 1;
        }
    }
    assert!(words > 300, "{words}");
}

/// In shades of gray no page is empty, and none is so dark that it cannot be read.
fn every_page_has_ink(pdf: &Path) {
    let folder = tempfile::tempdir().unwrap();
    let stem = folder.path().join("page");
    ran(Command::new("pdftoppm").args(["-gray", "-r", "50"]).args([pdf, &stem]));
    let mut pages = 0;
    for entry in std::fs::read_dir(folder.path()).unwrap() {
        let bytes = std::fs::read(entry.unwrap().path()).unwrap();
        // Behind three lines of head each byte is a shade.
        let head = bytes.iter().enumerate().filter(|(_, byte)| **byte == b'\n').nth(2).unwrap().0;
        let shades = &bytes[head + 1..];
        let dark = shades.iter().filter(|shade| **shade < 128).count() as f64 / shades.len() as f64;
        assert!((0.001..0.3).contains(&dark), "{}: {dark}", pdf.display());
        pages += 1;
    }
    assert!(pages > 0);
}
