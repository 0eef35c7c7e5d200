//! The time line drawn: a row for each text, bars over the years, legible in black and white.
//!
//! No script, no style of its own; pages may set tones by class.

use super::draw::{Anchor, Drawing, width};
use super::list::{all_dates, how_words, list, sentence};
use super::{Bar, How, Stretch, TimeLine};
use crate::report::speech::Reader;
use crate::values::{Date, Period};

/// The width of the sheet; it scales with the page.
const WIDE: f64 = 960.0;
/// Where the years begin: labels stand left of it.
const LEFT: f64 = 300.0;
/// What is kept free at the right.
const RIGHT: f64 = 14.0;
const SIZE: f64 = 11.0;
const LINE: f64 = 14.0;
const BAR: f64 = 13.0;
/// The height of a row with one line of text.
const ROW: f64 = 22.0;
/// Letters of a label on one line.
const LABEL: usize = 43;
/// The least way between two numbers of years.
const YEAR: f64 = 44.0;

/// The drawing as a file or a part of a page. `name` begins the names of its parts, so that
/// several may stand on one page.
pub(crate) fn svg(line: &TimeLine, reader: Reader, name: &str) -> String {
    drawn(line, reader, name).out
}

/// What the years cover, as whole years.
struct Years {
    from: Date,
    through: Date,
    first: i32,
    last: i32,
}

impl Years {
    fn of(line: &TimeLine) -> Years {
        let spans = || line.lanes.iter().flat_map(|lane| &lane.bars).flat_map(|bar| &bar.spans);
        let ends = spans().filter_map(|span| span.through);
        let marks = || line.marks.iter().map(|mark| mark.on);
        let first = spans().map(|span| span.from).chain(marks()).min().unwrap_or(Date(0));
        let last = spans().map(|span| span.from).chain(ends).chain(marks()).max().unwrap_or(first);
        let (first, last) = (year(first), year(last.after(Period::Months(6))).saturating_add(1));
        Years { from: first_of(first), through: first_of(last), first, last }
    }

    fn x(&self, day: Date) -> f64 {
        let whole = f64::from(self.through.0.saturating_sub(self.from.0).max(1));
        let part = f64::from(day.0.saturating_sub(self.from.0)) / whole;
        LEFT + part.clamp(0.0, 1.0) * (WIDE - LEFT - RIGHT)
    }
}

fn year(day: Date) -> i32 {
    day.to_string().split('-').next().and_then(|year| year.parse().ok()).unwrap_or(1)
}

fn first_of(year: i32) -> Date {
    Date::parse(&format!("{:04}-01-01", year.clamp(1, 9999))).unwrap_or(Date(0))
}

pub(super) fn drawn(line: &TimeLine, reader: Reader, name: &str) -> Drawing {
    let years = Years::of(line);
    let mut body = Drawing::default();
    let top = marks_rows(line, &years) as f64 * LINE + 6.0;
    let mut y = top + LINE + 8.0;
    for lane in &line.lanes {
        y += 8.0;
        body.text(0.0, y + SIZE, SIZE, Anchor::Start, "lane", &lane.title);
        y += ROW;
        for bar in &lane.bars {
            y = row(&mut body, bar, lane.kind, &years, y, reader, name);
        }
    }
    let bottom = y + 4.0;
    y = foot(&mut body, line, bottom, reader, name);
    let mut sheet = Drawing::default();
    open(&mut sheet, line, y, reader, name);
    axis(&mut sheet, &years, top, bottom, false);
    mark(&mut sheet, line, &years, bottom);
    axis(&mut sheet, &years, top, bottom, true);
    sheet.out.push_str(&body.out);
    sheet.texts.extend(body.texts);
    sheet.raw("</svg>");
    sheet
}

fn open(sheet: &mut Drawing, line: &TimeLine, high: f64, reader: Reader, name: &str) {
    sheet.raw(&format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" class=\"time-line\" viewBox=\"0 0 {WIDE} {high:.0}\" width=\"{WIDE}\" height=\"{high:.0}\" role=\"img\" aria-labelledby=\"{name}-title {name}-desc\" font-family=\"system-ui, 'Segoe UI', Arial, sans-serif\" lang=\"{}\">",
        reader.language.tag()
    ));
    let title = reader.say_with("time-line-title", &[("place", &line.title)]);
    sheet.told(&format!("title id=\"{name}-title\""), &title);
    sheet.told(&format!("desc id=\"{name}-desc\""), &list(line, reader).join(". "));
    sheet.raw(&format!("<rect class=\"paper\" width=\"{WIDE}\" height=\"{high:.0}\" fill=\"#ffffff\"/>"));
    sheet.raw("<defs>");
    sheet.raw(&format!(
        "<pattern id=\"{name}-elective\" width=\"6\" height=\"6\" patternUnits=\"userSpaceOnUse\" patternTransform=\"rotate(45)\"><rect width=\"6\" height=\"6\" fill=\"#ffffff\"/><rect width=\"3\" height=\"6\" fill=\"#3d3d3d\"/></pattern>"
    ));
    sheet.raw(&format!(
        "<pattern id=\"{name}-not-known\" width=\"6\" height=\"6\" patternUnits=\"userSpaceOnUse\"><rect width=\"6\" height=\"6\" fill=\"#ffffff\"/><circle cx=\"3\" cy=\"3\" r=\"1.3\" fill=\"#3d3d3d\"/></pattern>"
    ));
    sheet.raw("</defs>");
}

/// The years: a line each where there is room, else for every second, fifth and so on; first the
/// lines, then the numbers.
fn axis(sheet: &mut Drawing, years: &Years, top: f64, bottom: f64, numbers: bool) {
    let count = years.last.saturating_sub(years.first).max(1);
    let room = (WIDE - LEFT - RIGHT) / f64::from(count);
    let step = [1, 2, 5, 10, 20, 50, 100, 200, 500, 1000].into_iter().find(|step| f64::from(*step) * room >= YEAR);
    let step = step.unwrap_or(1000);
    for year in years.first..years.last {
        if year.rem_euclid(step) != 0 {
            continue;
        }
        let x = years.x(first_of(year));
        if numbers {
            sheet.text(x, top + SIZE, SIZE, Anchor::Middle, "year", &year.to_string());
        } else {
            sheet.upright(x, top + LINE, bottom, "year", 1.0, "");
        }
    }
}

/// A mark with its place above the years.
struct Placed {
    row: usize,
    x: f64,
    anchor: Anchor,
    left: f64,
    right: f64,
}

impl Placed {
    /// Whether one label stands on the other, or a line goes through one of them.
    fn meets(&self, other: &Placed) -> bool {
        let within = |x: f64, of: &Placed| of.left - 6.0 < x && x < of.right + 6.0 && x != of.x;
        match self.row.cmp(&other.row) {
            std::cmp::Ordering::Equal => self.left < other.right + 8.0 && other.left < self.right + 8.0,
            std::cmp::Ordering::Less => within(self.x, other),
            std::cmp::Ordering::Greater => within(other.x, self),
        }
    }
}

/// Where each mark is told, so that no label stands on another and no line goes through one.
fn placed(line: &TimeLine, years: &Years) -> Vec<Placed> {
    let mut found: Vec<Placed> = Vec::with_capacity(line.marks.len());
    for mark in &line.marks {
        let (x, wide) = (years.x(mark.on), width(&mark.label, SIZE) + 3.0);
        let (anchor, left) = if x + wide + 8.0 < WIDE { (Anchor::Start, x) } else { (Anchor::End, x - wide) };
        found.push(Placed { row: 0, x, anchor, left, right: left + wide });
    }
    // Labels that go to the right are laid from the left, those that go to the left from the
    // right, so that a line begins below the labels that it would cross.
    let mut order: Vec<usize> = (0..found.len()).collect();
    order.sort_by(|one, two| {
        let key = |at: &usize| {
            found.get(*at).map_or((false, 0.0), |mark| match mark.anchor {
                Anchor::End => (true, -mark.x),
                Anchor::Start | Anchor::Middle => (false, mark.x),
            })
        };
        let (one, two) = (key(one), key(two));
        one.0.cmp(&two.0).then_with(|| one.1.total_cmp(&two.1))
    });
    let mut laid: Vec<usize> = Vec::new();
    for at in order {
        for row in 0..=laid.len() {
            if let Some(mark) = found.get_mut(at) {
                mark.row = row;
            }
            let meets = |other: &usize| found.get(at).zip(found.get(*other)).is_some_and(|(one, two)| one.meets(two));
            if !laid.iter().any(meets) {
                break;
            }
        }
        laid.push(at);
    }
    found
}

fn marks_rows(line: &TimeLine, years: &Years) -> usize {
    placed(line, years).into_iter().map(|mark| mark.row + 1).max().unwrap_or(0)
}

/// The marked days: lines first, so that every text stands on top of them.
fn mark(sheet: &mut Drawing, line: &TimeLine, years: &Years, bottom: f64) {
    let placed = placed(line, years);
    let foot = |mark: &Placed| mark.row as f64 * LINE + SIZE;
    let class = |today: bool| if today { "today" } else { "day" };
    for (mark, at) in line.marks.iter().zip(&placed) {
        let dashes = if mark.today { "" } else { "5 3" };
        sheet.upright(at.x, foot(at) + 3.0, bottom, class(mark.today), 1.5, dashes);
    }
    for (mark, at) in line.marks.iter().zip(&placed) {
        let shift = if matches!(at.anchor, Anchor::End) { -3.0 } else { 3.0 };
        sheet.text(at.x + shift, foot(at), SIZE, at.anchor, class(mark.today), &mark.label);
    }
}

/// A row: the label, the bars, and their days beside them or, where there is room nowhere else,
/// inside. Gives the foot of the row.
fn row(body: &mut Drawing, bar: &Bar, kind: &str, years: &Years, y: f64, reader: Reader, name: &str) -> f64 {
    body.raw(&format!("<g class=\"bar {kind}\">"));
    body.told("title", &sentence(bar, reader));
    let mut lines = textwrap::wrap(&bar.label, LABEL).into_iter().map(String::from).collect::<Vec<_>>();
    if lines.len() > 2 {
        lines.truncate(2);
        if let Some(last) = lines.last_mut() {
            *last = format!("{}…", last.chars().take(LABEL - 1).collect::<String>().trim_end());
        }
    }
    for (at, text) in lines.iter().enumerate() {
        body.text(8.0, y + SIZE + at as f64 * LINE, SIZE, Anchor::Start, "label", text);
    }
    let end = |span: &Stretch| span.through.map_or(WIDE - RIGHT, |through| years.x(through.next()));
    for span in &bar.spans {
        let (from, to) = (years.x(span.from), end(span));
        let fill = match span.how {
            How::InForce if kind == "advice" => "#ffffff".to_owned(),
            How::InForce => "#3d3d3d".to_owned(),
            How::Elective => format!("url(#{name}-elective)"),
            How::NotKnown => format!("url(#{name}-not-known)"),
            How::Suspended => "#ffffff".to_owned(),
        };
        let (top, high) = box_of(span.how, y);
        body.bar(from, top, (to - from).max(2.0), high, class(span.how), &fill);
    }
    days(body, bar, kind, years, y, &end, reader);
    body.raw("</g>");
    y + ROW + lines.len().saturating_sub(1) as f64 * LINE
}

/// The days of a bar in words: right of it, left of it, or inside.
fn days(
    body: &mut Drawing,
    bar: &Bar,
    kind: &str,
    years: &Years,
    y: f64,
    end: &dyn Fn(&Stretch) -> f64,
    reader: Reader,
) {
    let (Some(first), Some(last)) = (bar.spans.first(), bar.spans.last()) else { return };
    let mut words = all_dates(*first, *last, reader);
    if bar.ended_by.is_some() {
        words.push_str(" ×");
    }
    if bar.end_not_known {
        words.push_str(" ?");
    }
    let (wide, left, right, foot) = (width(&words, SIZE), years.x(first.from), end(last), y + SIZE - 0.5);
    if right + wide + 6.0 < WIDE - RIGHT {
        body.text(right + 6.0, foot, SIZE, Anchor::Start, "days", &words);
    } else if left - wide - 6.0 > LEFT {
        body.text(left - 6.0, foot, SIZE, Anchor::End, "days", &words);
    } else if bar.spans.len() == 1 && first.how == How::InForce && right - left > wide + 12.0 {
        let class = if kind == "advice" { "days" } else { "inside" };
        body.text(left + 6.0, foot, SIZE, Anchor::Start, class, &words);
    }
}

/// The top and the height of a bar: what is suspended is a thin line between bars.
fn box_of(how: How, y: f64) -> (f64, f64) {
    if how == How::Suspended { (y + BAR / 2.0 - 1.5, 3.0) } else { (y, BAR) }
}

fn class(how: How) -> &'static str {
    match how {
        How::InForce => "in-force",
        How::Elective => "elective",
        How::NotKnown => "not-known",
        How::Suspended => "suspended",
    }
}

/// What is coming without a day, and the legend. Gives the foot of the sheet.
fn foot(body: &mut Drawing, line: &TimeLine, mut y: f64, reader: Reader, name: &str) -> f64 {
    if !line.coming.is_empty() {
        y += 8.0;
        body.text(0.0, y + SIZE, SIZE, Anchor::Start, "lane", &reader.say("time-line-coming"));
        y += ROW;
        for coming in &line.coming {
            for text in textwrap::wrap(&coming.words, 140) {
                body.text(8.0, y + SIZE, SIZE, Anchor::Start, "label", &text);
                y += LINE + 2.0;
            }
        }
    }
    y += 12.0;
    let mut x = 8.0;
    let shown =
        |how: How| line.lanes.iter().flat_map(|lane| &lane.bars).flat_map(|bar| &bar.spans).any(|span| span.how == how);
    for how in How::ALL.into_iter().filter(|how| shown(*how)) {
        let words = how_words(how, reader);
        let wide = 34.0 + width(&words, SIZE) + 20.0;
        if x + wide > WIDE {
            x = 8.0;
            y += ROW;
        }
        let fill = match how {
            How::InForce => "#3d3d3d".to_owned(),
            How::Elective => format!("url(#{name}-elective)"),
            How::NotKnown => format!("url(#{name}-not-known)"),
            How::Suspended => "#ffffff".to_owned(),
        };
        let (top, high) = box_of(how, y);
        body.bar(x, top, 28.0, high, class(how), &fill);
        body.text(x + 34.0, y + SIZE - 0.5, SIZE, Anchor::Start, "legend", &words);
        x += wide;
    }
    let bars = || line.lanes.iter().flat_map(|lane| &lane.bars);
    let mut signs: Vec<String> = Vec::new();
    if bars().any(|bar| bar.ended_by.is_some()) {
        signs.push(reader.say("time-line-repealed"));
    }
    if bars().any(|bar| bar.end_not_known) {
        signs.push(format!("? {}", reader.say("time-line-end-not-known")));
    }
    if !signs.is_empty() {
        y += ROW;
        body.text(8.0, y + SIZE, SIZE, Anchor::Start, "legend", &signs.join("; "));
    }
    y += ROW;
    body.text(8.0, y + SIZE, SIZE, Anchor::Start, "legend", &reader.say("time-line-caution"));
    y + ROW
}
