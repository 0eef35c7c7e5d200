//! What the server counts, as text for Prometheus
//! (<https://prometheus.io/docs/instrumenting/exposition_formats/>). Nothing of a job is
//! counted but its outcome.

use super::problem::Problem;
use super::state::Shared;
use crate::verdict::model::Outcome;
use axum::extract::{MatchedPath, Request, State};
use axum::http::{HeaderValue, StatusCode, header};
use axum::middleware::Next;
use axum::response::{IntoResponse, Response};
use prometheus_client::encoding::EncodeLabelSet;
use prometheus_client::encoding::text::encode;
use prometheus_client::metrics::counter::Counter;
use prometheus_client::metrics::family::Family;
use prometheus_client::metrics::gauge::Gauge;
use prometheus_client::metrics::histogram::{Histogram, exponential_buckets};
use prometheus_client::registry::Registry;
use std::time::Instant;

/// A route and how it ended.
#[derive(Clone, Debug, PartialEq, Eq, Hash, EncodeLabelSet)]
struct Ended {
    route: String,
    method: String,
    status: u16,
}

#[derive(Clone, Debug, PartialEq, Eq, Hash, EncodeLabelSet)]
struct Route {
    route: String,
}

#[derive(Clone, Debug, PartialEq, Eq, Hash, EncodeLabelSet)]
struct Told {
    outcome: &'static str,
}

/// The counts.
#[derive(Debug)]
pub(crate) struct Metrics {
    registry: Registry,
    requests: Family<Ended, Counter>,
    durations: Family<Route, Histogram, fn() -> Histogram>,
    verdicts: Family<Told, Counter>,
    in_flight: Gauge,
    rejected: Counter,
    connections: Counter,
}

/// From a millisecond to half a minute.
fn buckets() -> Histogram {
    Histogram::new(exponential_buckets(0.001, 2.0, 16))
}

impl Metrics {
    pub(super) fn new() -> Metrics {
        let mut all = Metrics {
            registry: Registry::with_prefix("groundrule"),
            requests: Family::default(),
            durations: Family::new_with_constructor(buckets as fn() -> Histogram),
            verdicts: Family::default(),
            in_flight: Gauge::default(),
            rejected: Counter::default(),
            connections: Counter::default(),
        };
        let Metrics { registry, requests, durations, verdicts, in_flight, rejected, connections } = &mut all;
        registry.register("requests", "Requests by route, method and status", requests.clone());
        registry.register("request_duration_seconds", "How long requests took, by route", durations.clone());
        registry.register("verdicts", "Verdicts by outcome", verdicts.clone());
        registry.register("requests_in_flight", "Requests that are being answered", in_flight.clone());
        registry.register(
            "requests_rejected",
            "Requests turned away because too much waited, or that took too long",
            rejected.clone(),
        );
        registry.register(
            "connections_rejected",
            "Connections turned away because too many were open",
            connections.clone(),
        );
        all
    }

    /// A verdict was told.
    pub(super) fn told(&self, outcome: Outcome) {
        self.verdicts.get_or_create(&Told { outcome: outcome.word() }).inc();
    }

    /// A connection was turned away.
    pub(super) fn turned_away(&self) {
        self.connections.inc();
    }
}

/// One less is being answered, however it ends.
struct InFlight(Gauge);

impl Drop for InFlight {
    fn drop(&mut self) {
        self.0.dec();
    }
}

/// Counts every request.
pub(super) async fn count(State(state): State<Shared>, request: Request, next: Next) -> Response {
    let Some(metrics) = &state.metrics else { return next.run(request).await };
    // A route and not the address: addresses are without number.
    let route = request.extensions().get::<MatchedPath>().map_or("none", |path| path.as_str()).to_owned();
    let method = match request.method().as_str() {
        known @ ("GET" | "HEAD" | "POST") => known.to_owned(),
        _ => "other".to_owned(),
    };
    metrics.in_flight.inc();
    let in_flight = InFlight(metrics.in_flight.clone());
    let begun = Instant::now();
    let response = next.run(request).await;
    drop(in_flight);
    let status = response.status();
    metrics.durations.get_or_create(&Route { route: route.clone() }).observe(begun.elapsed().as_secs_f64());
    if status == StatusCode::SERVICE_UNAVAILABLE {
        metrics.rejected.inc();
    }
    metrics.requests.get_or_create(&Ended { route, method, status: status.as_u16() }).inc();
    response
}

/// The counts as text.
pub(super) async fn show(State(state): State<Shared>) -> Response {
    let Some(metrics) = &state.metrics else {
        return Problem::new(StatusCode::NOT_FOUND, "this server counts nothing")
            .help("start it with --metrics")
            .into_response();
    };
    let mut text = String::new();
    if encode(&mut text, &metrics.registry).is_err() {
        return Problem::fault().into_response();
    }
    let kind = HeaderValue::from_static("application/openmetrics-text; version=1.0.0; charset=utf-8");
    ([(header::CONTENT_TYPE, kind)], text).into_response()
}
