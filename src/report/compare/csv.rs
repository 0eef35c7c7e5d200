//! The comparison as a table for a spreadsheet, by RFC 4180
//! (<https://www.rfc-editor.org/rfc/rfc4180>): a header, then a record for each row, with five
//! fields for each column.

use super::super::speech::Reader;
use super::Comparison;
use ::csv::{QuoteStyle, Terminator, WriterBuilder};

/// The file; every record has as many fields as the header.
pub(crate) fn csv(comparison: &Comparison, reader: Reader) -> String {
    let mut records: Vec<Vec<String>> = Vec::new();
    let mut header =
        vec![reader.say("compare-csv-question"), reader.say("compare-csv-title"), reader.say("compare-csv-differs")];
    for column in &comparison.columns {
        let of = |what: String| format!("{}: {what}", column.label);
        header.extend([
            of(reader.say("compare-csv-answer")),
            of(reader.say("compare-csv-finding")),
            of(reader.say("compare-csv-strictest")),
            of(reader.say("compare-csv-hangs-on")),
            of(reader.say("compare-csv-texts")),
        ]);
    }
    records.push(header);
    let heads: [(&str, String, Vec<String>); 3] = [
        (
            "outcome",
            reader.say("compare-outcome"),
            comparison.columns.iter().map(|column| column.outcome_words.clone()).collect(),
        ),
        (
            "codes",
            reader.say("compare-codes"),
            comparison.columns.iter().map(|column| column.codes_words(reader).join("; ")).collect(),
        ),
        (
            "read",
            reader.say("compare-read"),
            comparison.columns.iter().map(|column| column.read_words(reader)).collect(),
        ),
    ];
    let word = |holds: bool| if holds { reader.say("value-yes") } else { reader.say("value-no") };
    for (name, title, values) in heads {
        let differs = values.iter().zip(values.iter().skip(1)).any(|(one, next)| one != next);
        let mut record = vec![name.to_owned(), title, word(differs)];
        for value in values {
            record.extend([value, String::new(), String::new(), String::new(), String::new()]);
        }
        records.push(record);
    }
    for row in &comparison.rows {
        let mut record = vec![row.question.clone(), row.title.clone(), word(row.differs)];
        for cell in &row.cells {
            let strictest = match cell.unranked {
                Some(why) => reader.say_with("compare-csv-unranked", &[("why", &super::why_words(why, reader))]),
                None => word(cell.strictest),
            };
            let hangs = if cell.may_change && cell.hangs_on.is_empty() {
                reader.say("compare-may-change")
            } else {
                cell.hangs_on.join("; ")
            };
            record.extend([
                super::answer_words(cell, row, reader),
                super::finding_words(cell, reader).unwrap_or_default(),
                strictest,
                hangs,
                cell.texts.join("; "),
            ]);
        }
        records.push(record);
    }
    let mut writer =
        WriterBuilder::new().terminator(Terminator::CRLF).quote_style(QuoteStyle::Necessary).from_writer(Vec::new());
    for record in &records {
        // It is written to memory, and all records are of one length: nothing can fail.
        let _written = writer.write_record(record.iter().map(|field| harmless(field)));
    }
    writer.into_inner().map(|bytes| String::from_utf8_lossy(&bytes).into_owned()).unwrap_or_default()
}

/// A text of others that a spreadsheet would take for a formula, kept a text by the apostrophe
/// that spreadsheets read so.
fn harmless(field: &str) -> String {
    if field.starts_with(['=', '+', '-', '@', '\t', '\r']) { format!("'{field}") } else { field.to_owned() }
}
