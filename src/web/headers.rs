//! What every answer tells a browser: run and show nothing from elsewhere, send nothing
//! elsewhere, guess no type, keep nothing.

use axum::extract::Request;
use axum::http::header::{
    CACHE_CONTROL, CONTENT_SECURITY_POLICY, HeaderName, HeaderValue, REFERRER_POLICY, X_CONTENT_TYPE_OPTIONS,
    X_FRAME_OPTIONS,
};
use axum::middleware::Next;
use axum::response::Response;

/// The fields and what stands in them where an answer does not say otherwise itself.
const FIELDS: [(HeaderName, &str); 8] = [
    (
        CONTENT_SECURITY_POLICY,
        "default-src 'none'; style-src 'self'; script-src 'self'; connect-src 'self'; img-src 'self' data:; form-action 'self'; \
         base-uri 'none'; frame-ancestors 'none'",
    ),
    (X_CONTENT_TYPE_OPTIONS, "nosniff"),
    (X_FRAME_OPTIONS, "DENY"),
    // With `no-referrer` a browser would hide even from this server that a form is its own.
    (REFERRER_POLICY, "same-origin"),
    (HeaderName::from_static("cross-origin-opener-policy"), "same-origin"),
    (HeaderName::from_static("cross-origin-embedder-policy"), "require-corp"),
    (HeaderName::from_static("cross-origin-resource-policy"), "same-origin"),
    // Answers hold jobs.
    (CACHE_CONTROL, "no-store"),
];

/// Adds the fields to an answer.
pub(super) async fn add(request: Request, next: Next) -> Response {
    let mut response = next.run(request).await;
    for (name, value) in FIELDS {
        response.headers_mut().entry(name).or_insert(HeaderValue::from_static(value));
    }
    response
}
