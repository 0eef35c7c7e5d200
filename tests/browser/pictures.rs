//! The pictures of the sample jobs as a browser shows them, on a screen and in shades
//! of gray; they stay in the target folder, to be looked at.

use super::{browser, ran};
use std::path::{Path, PathBuf};
use std::process::Command;

const JOBS: [&str; 6] = [
    "apartments.json",
    "jacket-not-known.job",
    "long-wire.job",
    "new-house.job",
    "restaurant.job",
    "shop-on-a-feeder.job",
];

/// Where the pictures go.
fn shelf() -> PathBuf {
    let shelf = Path::new(env!("CARGO_TARGET_TMPDIR")).parent().unwrap().join("picture");
    std::fs::create_dir_all(&shelf).unwrap();
    shelf
}

/// The drawing of a sample job.
fn drawing(job: &str, detail: bool) -> String {
    let mut command = Command::new(env!("CARGO_BIN_EXE_groundrule"));
    command
        .current_dir(Path::new(env!("CARGO_MANIFEST_DIR")).join("shared/jobs"))
        .args(["verdict", job, "--as", "svg"]);
    if detail {
        command.arg("--detail");
    }
    let done = command.output().unwrap();
    assert!(done.stderr.is_empty(), "{}", String::from_utf8_lossy(&done.stderr));
    String::from_utf8(done.stdout).unwrap()
}

/// Width and height of a drawing.
fn size(svg: &str) -> (u32, u32) {
    let from = svg.find("viewBox=\"0 0 ").unwrap() + "viewBox=\"0 0 ".len();
    let rest = &svg[from..];
    let mut figures = rest[..rest.find('"').unwrap()].split(' ').map(|figure| figure.parse().unwrap());
    (figures.next().unwrap(), figures.next().unwrap())
}

/// A page that forbids styles and scripts, with the drawing in it.
fn page(svg: &str) -> String {
    format!(
        "<!DOCTYPE html><html lang=\"en\"><head><meta charset=\"utf-8\"><title>picture</title>\
         <meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'\"></head>\
         <body>{svg}</body></html>"
    )
}

#[test]
fn the_sample_jobs_are_drawn() {
    for job in JOBS {
        for (kind, detail) in [("picture", false), ("detail", true)] {
            let svg = drawing(job, detail);
            let name = format!("{}-{kind}", job.split('.').next().unwrap());
            let file = shelf().join(format!("{name}.svg"));
            std::fs::write(&file, &svg).unwrap();
            let (width, height) = size(&svg);
            let png = shelf().join(format!("{name}.png"));
            let window = format!("--window-size={width},{height}");
            browser(&file, &[window, format!("--screenshot={}", png.display())]);
            let bytes = std::fs::read(&png).unwrap();
            assert_eq!(&bytes[1..4], b"PNG");
            assert!(bytes.len() > 40_000, "{name}: a picture of {} bytes is blank", bytes.len());
        }
    }
}

#[test]
fn a_drawing_is_printed_with_all_its_words_and_without_styles() {
    for (job, detail, words) in [
        (
            "long-wire.job",
            false,
            &["Run 1: CSST, plain", "Bonding jumper – not met", "spliced", "Range", "Smell gas?"][..],
        ),
        (
            "long-wire.job",
            true,
            &["no clamp here", "along the conductor", "[IRC 2021 G2411.2.1]", "last read on 2026-11-24"][..],
        ),
        (
            "jacket-not-known.job",
            false,
            &["CSST, jacket not known", "Meter", "not known", "Bonding jumper – open", "(presumed)"][..],
        ),
        ("shop-on-a-feeder.job", false, &["for the authority", "The building that", "polyethylene", "Manifold"][..]),
        ("apartments.json", false, &["CSST,", "arc-resistant", "run to it: not known", "(on which of"][..]),
    ] {
        let svg = drawing(job, detail);
        let folder = tempfile::tempdir().unwrap();
        let (html, pdf) = (folder.path().join("page.html"), folder.path().join("page.pdf"));
        std::fs::write(&html, page(&svg)).unwrap();
        browser(&html, &[format!("--print-to-pdf={}", pdf.display())]);
        let text = ran(Command::new("pdftotext").args(["-layout".as_ref(), pdf.as_os_str(), "-".as_ref()]));
        let text = text.split_whitespace().collect::<Vec<_>>().join(" ");
        for words in words {
            assert!(text.contains(words), "{job}: `{words}` is not in\n{text}");
        }
    }
}

#[test]
fn in_shades_of_gray_a_drawing_has_ink_and_is_not_dark() {
    let svg = drawing("restaurant.job", false);
    let folder = tempfile::tempdir().unwrap();
    let (html, pdf) = (folder.path().join("page.html"), folder.path().join("page.pdf"));
    std::fs::write(&html, page(&svg)).unwrap();
    browser(&html, &[format!("--print-to-pdf={}", pdf.display())]);
    super::every_page_has_ink(&pdf);
}
