//! What fields may hold, and how a typed quantity is read.

use super::app_state::AppState;
use super::ask::Given;
use super::problem::Problem;
use crate::model::{Side, Unit, Work, wording};
use crate::scope::review::typed;
use axum::Json;
use axum::extract::State;
use serde::Deserialize;
use serde_json::{Value, json};
use std::sync::Arc;

/// In the order they are offered.
const WORKS: [Work; 9] = [
    Work::DetachReset,
    Work::RemoveReplace,
    Work::Remove,
    Work::Install,
    Work::Repair,
    Work::Clean,
    Work::Paint,
    Work::Stain,
    Work::Protect,
];

const UNITS: [(Unit, &str); 12] = [
    (Unit::Each, "each"),
    (Unit::Foot, "ft"),
    (Unit::SquareFoot, "sq ft"),
    (Unit::Square, "squares"),
    (Unit::Pair, "pairs"),
    (Unit::Set, "sets"),
    (Unit::Roll, "rolls"),
    (Unit::Sheet, "sheets"),
    (Unit::Bundle, "bundles"),
    (Unit::Box, "boxes"),
    (Unit::Inch, "in"),
    (Unit::Yard, "yd"),
];

const SIDES: [Side; 5] = [Side::Front, Side::Right, Side::Rear, Side::Left, Side::None];

/// `GET /api/catalogue`
pub(super) async fn catalogue(State(app): State<Arc<AppState>>) -> Json<Value> {
    let item = |item: &crate::language::rules::Item| {
        json!({
            "id": item.id,
            "name": wording::item(Some(&item.id), ""),
            "unit": item.unit,
            "area": item.area,
        })
    };
    let grammar = app.grammar();
    Json(json!({
        "items": grammar.items.iter().map(item).collect::<Vec<_>>(),
        "works": WORKS.map(|work| (work, wording::work(Some(work)))),
        "units": UNITS,
        "sides": SIDES,
    }))
}

/// A quantity as typed.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Text {
    text: String,
    /// The item it is of, whose unit it has where none is typed.
    #[serde(default)]
    item: Option<String>,
}

/// `POST /api/read`
pub(super) async fn read(
    State(app): State<Arc<AppState>>,
    Given(Text { text, item }): Given<Text>,
) -> Result<Json<Value>, Problem> {
    let grammar = app.grammar();
    let typed =
        typed::quantity(&text, &grammar).map_err(|refusal| Problem::refused(refusal, |_| Value::Null))?;
    let item = item.and_then(|name| typed::item(&name, &grammar));
    let unit = typed.unit.or_else(|| item.map(|n| grammar.items[usize::from(n)].unit));
    let quantity = typed.quantity;
    let shown =
        unit.map_or_else(|| wording::number(quantity, Unit::Each), |unit| wording::much(quantity, unit));
    Ok(Json(json!({
        "quantity": quantity.value().decimal(),
        "low": quantity.low().decimal(),
        "high": quantity.high().decimal(),
        "unit": unit,
        "shown": shown,
    })))
}
