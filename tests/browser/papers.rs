//! Every paper of one job as it is printed on Letter and on A4, in black and white.

use super::{browser, every_page_has_ink, nothing_is_cut_off, ran};
use std::path::{Path, PathBuf};
use std::process::Command;

/// Each paper, with texts that it must print.
const PAPERS: &[(&str, &[&str])] = &[
    (
        "answer",
        &["Reasoned answer", "At a glance", "Reasons, question by question", "Texts that were tried", "governs"],
    ),
    ("plan-notes", &["Plan notes: bonding of gas piping", "The bond as it will be built", "Prepared by"]),
    ("detail", &["Bonding detail", "How each part stands", "Not to scale"]),
    ("materials", &["Materials for the bond", "For pipe of trade size", "What it must be", "Quantity"]),
    ("work-split", &["Work split between the trades", "Steps", "From the gas trade to whoever installs the bond"]),
    (
        "checklist",
        &["Inspection checklist", "1. Rough: before anything is covered", "2. Final", "Pass", "Fail", "Photo"],
    ),
    ("notice", &["Correction notice and re-check list", "Choices that mend it", "Re-check", "Inspector"]),
    ("owners-letter", &["Letter to the owner", "What a bonding jumper does not do", "When to call somebody"]),
];

/// Where the pictures go.
fn shelf() -> PathBuf {
    let shelf = Path::new(env!("CARGO_TARGET_TMPDIR")).parent().unwrap().join("papers");
    std::fs::create_dir_all(&shelf).unwrap();
    shelf
}

#[test]
fn every_paper_is_printed_whole_on_either_size() {
    let job = Path::new(env!("CARGO_MANIFEST_DIR")).join("shared/jobs/long-wire.job");
    for (name, texts) in PAPERS {
        let mut command = Command::new(env!("CARGO_BIN_EXE_groundrule"));
        let done = command.arg("verdict").arg(&job).args(["--as", "html", "--paper", name]).output().unwrap();
        // The job has corrections, and each paper of it says so by its status.
        assert_eq!(done.status.code(), Some(10), "{name}: {}", String::from_utf8_lossy(&done.stderr));
        let html = String::from_utf8(done.stdout).unwrap();
        for size in ["letter", "A4"] {
            let file = shelf().join(format!("{name}-{size}.html"));
            // A printer's paper is chosen outside the page; here a line stands for the choice.
            let sized = format!("@page {{ size: {size}; }} @page drawing {{ size: {size} landscape; }}\n</style>");
            std::fs::write(&file, html.replacen("</style>", &sized, 1)).unwrap();
            let pdf = file.with_extension("pdf");
            browser(&file, &[format!("--print-to-pdf={}", pdf.display())]);
            let about = ran(Command::new("pdfinfo").arg(&pdf));
            assert!(about.to_lowercase().contains(&format!("({})", size.to_lowercase())), "{name}: {about}");
            let text = ran(Command::new("pdftotext").args(["-layout".as_ref(), pdf.as_os_str(), "-".as_ref()]));
            let text = text.split_whitespace().collect::<Vec<_>>().join(" ");
            let shared = ["BW-26-118", "Brackwell County", "Facts that this paper rests on", "Cautions", "Smell gas?"];
            for part in texts.iter().chain(&shared) {
                assert!(text.contains(part), "{name}, {size}: `{part}` is not in\n{text}");
            }
            nothing_is_cut_off(&pdf);
            nothing_is_too_small(&pdf);
            every_page_has_ink(&pdf);
            ran(Command::new("pdftoppm").args(["-gray", "-r", "96", "-png"]).args([&pdf, &file.with_extension("")]));
        }
    }
}

/// No word is smaller than 8 pt. What is read off a print is the height of a line of its
/// letters, which is at least 1.1 times their size in the plainest of common fonts.
fn nothing_is_too_small(pdf: &Path) {
    for (height, line) in heights(pdf) {
        assert!(height >= 8.8, "{}: {height} {line}", pdf.display());
    }
}

/// The height of each word of a print, with what is told of it.
fn heights(pdf: &Path) -> Vec<(f64, String)> {
    let boxes = ran(Command::new("pdftotext").args(["-bbox".as_ref(), pdf.as_os_str(), "-".as_ref()]));
    let words = boxes.lines().map(str::trim).filter(|line| line.starts_with("<word "));
    words.map(|line| (super::figure(line, "yMax") - super::figure(line, "yMin"), line.to_owned())).collect()
}

#[test]
fn the_widest_and_the_tallest_drawing_are_printed_in_letters_that_can_be_read() {
    for job in ["shop-on-a-feeder.job", "restaurant.job"] {
        for language in ["en", "es"] {
            let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("shared/jobs").join(job);
            let mut command = Command::new(env!("CARGO_BIN_EXE_groundrule"));
            command.arg("verdict").arg(&path).args(["--as", "html", "--paper", "detail", "--language", language]);
            let html = String::from_utf8(command.output().unwrap().stdout).unwrap();
            for size in ["letter", "A4"] {
                let file = shelf().join(format!("{job}-{language}-{size}.html"));
                let sized = format!("@page {{ size: {size}; }} @page drawing {{ size: {size} landscape; }}\n</style>");
                std::fs::write(&file, html.replacen("</style>", &sized, 1)).unwrap();
                let pdf = file.with_extension("pdf");
                browser(&file, &[format!("--print-to-pdf={}", pdf.display())]);
                nothing_is_cut_off(&pdf);
                nothing_is_too_small(&pdf);
                ran(Command::new("pdftoppm")
                    .args(["-gray", "-r", "96", "-png"])
                    .args([&pdf, &file.with_extension("")]));
            }
        }
    }
}
