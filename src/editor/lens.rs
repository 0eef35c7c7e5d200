//! The lens over an amendment that tells what it changes.
//!
use lsp_types::CodeLensOptions;
pub(super) fn options() -> Option<CodeLensOptions> {
    None
}
