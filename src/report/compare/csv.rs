//! The comparison as a table for a spreadsheet, by RFC 4180
//! (<https://www.rfc-editor.org/rfc/rfc4180>): a header, then a record for each row, with five
//! fields for each column.

use super::super::speech::Reader;
use super::{Comparison, Row, words};
use ::csv::{QuoteStyle, Terminator, WriterBuilder};

/// How many fields a column has.
const FIELDS: usize = 5;

/// The file; every record has as many fields as the header.
pub(crate) fn csv(comparison: &Comparison, reader: Reader) -> String {
    let mut writer =
        WriterBuilder::new().terminator(Terminator::CRLF).quote_style(QuoteStyle::Necessary).from_writer(Vec::new());
    let rows = comparison.rows.iter().map(|row| record(row, reader));
    for record in std::iter::once(header(comparison, reader)).chain(heads(comparison, reader)).chain(rows) {
        // It is written to memory, and all records are of one length: nothing can fail.
        let _written = writer.write_record(record.iter().map(|field| harmless(field)));
    }
    writer.into_inner().map(|bytes| String::from_utf8_lossy(&bytes).into_owned()).unwrap_or_default()
}

fn header(comparison: &Comparison, reader: Reader) -> Vec<String> {
    let mut header =
        vec![reader.say("compare-csv-question"), reader.say("compare-csv-title"), reader.say("compare-csv-differs")];
    for column in &comparison.columns {
        let of = |what: String| format!("{}: {what}", column.label);
        let fields: [String; FIELDS] = [
            of(reader.say("compare-csv-answer")),
            of(reader.say("compare-csv-finding")),
            of(reader.say("compare-csv-strictest")),
            of(reader.say("compare-csv-hangs-on")),
            of(reader.say("compare-csv-texts")),
        ];
        header.extend(fields);
    }
    header
}

/// What stands over the answers of a column: the outcome, the codes, when its rules were read.
fn heads(comparison: &Comparison, reader: Reader) -> impl Iterator<Item = Vec<String>> {
    let columns = || comparison.columns.iter();
    let heads: [(&str, String, Vec<String>); 3] = [
        ("outcome", reader.say("compare-outcome"), columns().map(|column| column.outcome_words.clone()).collect()),
        ("codes", reader.say("compare-codes"), columns().map(|column| column.codes_words(reader).join("; ")).collect()),
        ("read", reader.say("compare-read"), columns().map(|column| column.read_words(reader)).collect()),
    ];
    heads.into_iter().map(move |(name, title, values)| {
        let differs = values.iter().zip(values.iter().skip(1)).any(|(one, next)| one != next);
        let mut record = vec![name.to_owned(), title, word(differs, reader)];
        for value in values {
            record.push(value);
            record.extend(std::iter::repeat_n(String::new(), FIELDS - 1));
        }
        record
    })
}

fn record(row: &Row, reader: Reader) -> Vec<String> {
    let mut record = vec![row.question.clone(), row.title.clone(), word(row.differs, reader)];
    for cell in &row.cells {
        let strictest = match cell.unranked {
            Some(why) => reader.say_with("compare-csv-unranked", &[("why", &words::why_words(why, reader))]),
            None => word(cell.strictest, reader),
        };
        let hangs = if cell.may_change && cell.hangs_on.is_empty() {
            reader.say("compare-may-change")
        } else {
            cell.hangs_on.join("; ")
        };
        let fields: [String; FIELDS] = [
            words::answer_words(cell, row, reader),
            words::finding_words(cell, reader).unwrap_or_default(),
            strictest,
            hangs,
            cell.texts.join("; "),
        ];
        record.extend(fields);
    }
    record
}

fn word(holds: bool, reader: Reader) -> String {
    if holds { reader.say("value-yes") } else { reader.say("value-no") }
}

/// A text of others that a spreadsheet would take for a formula, kept a text by the apostrophe
/// that spreadsheets read so.
fn harmless(field: &str) -> String {
    if field.starts_with(['=', '+', '-', '@', '\t', '\r']) { format!("'{field}") } else { field.to_owned() }
}
