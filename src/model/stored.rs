//! How exact numbers stand in JSON. A number has its field, `rise`, as a decimal with three places. Where that isn't the
//! very number, a field beside it, `rise_exact`, gives it as a fraction: `"25/3"`. A decimal without a fraction is the
//! number, but for one that a tape shows: 8.333 is 8 ft 4 in, as drafts without fractions have it.
//!
//! The modules here are named after the fields, for `#[serde(flatten, with = "…")]`.

use super::{Exact, Quantity};
use serde::de::Error;
use serde::{Deserialize, Deserializer, Serialize, Serializer};

/// A number as a decimal alone, for what is written and never read.
pub(crate) fn decimal<S: Serializer>(number: &Exact, to: S) -> Result<S::Ok, S::Error> {
    to.serialize_f64(number.decimal())
}

/// An exact number as a fraction in quotes.
#[derive(Clone, Copy)]
struct Fraction(Exact);

impl Serialize for Fraction {
    fn serialize<S: Serializer>(&self, to: S) -> Result<S::Ok, S::Error> {
        to.collect_str(&self.0)
    }
}

impl<'de> Deserialize<'de> for Fraction {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        let wrong = |_| Error::custom("an exact number is whole, or one by another, such as \"25/3\"");
        String::deserialize(from)?.parse().map(Self).map_err(wrong)
    }
}

/// The fraction that has to stand beside a number's decimal; none where the decimal says it all.
fn fraction(number: Exact) -> Option<Fraction> {
    let says_all = (number * 1000).is_integer() && Exact::of_decimal(number.decimal()) == number;
    (!says_all).then_some(Fraction(number))
}

/// The number that a decimal and the fraction beside it tell. A fraction that is another number than the decimal was left
/// behind when somebody changed that, and counts for nothing.
fn told(decimal: f64, fraction: Option<Fraction>) -> Exact {
    let agrees = |exact: &Exact| (exact.decimal() - decimal).abs() < 0.001;
    fraction.map(|told| told.0).filter(agrees).unwrap_or_else(|| Exact::of_decimal(decimal))
}

/// A number that may lack.
macro_rules! optional {
    ($field:ident, $exact:ident) => {
        pub(super) mod $field {
            use super::*;

            #[derive(Serialize, Deserialize)]
            struct Fields {
                $field: Option<f64>,
                #[serde(default, skip_serializing_if = "Option::is_none")]
                $exact: Option<Fraction>,
            }

            pub fn serialize<S: Serializer>(number: &Option<Exact>, to: S) -> Result<S::Ok, S::Error> {
                let fields = Fields { $field: number.map(Exact::decimal), $exact: number.and_then(fraction) };
                fields.serialize(to)
            }

            pub fn deserialize<'de, D: Deserializer<'de>>(from: D) -> Result<Option<Exact>, D::Error> {
                let fields = Fields::deserialize(from)?;
                Ok(fields.$field.map(|decimal| told(decimal, fields.$exact)))
            }
        }
    };
}

/// A number that is always there.
macro_rules! required {
    ($module:ident, $field:ident, $exact:ident) => {
        pub(super) mod $module {
            use super::*;

            #[derive(Serialize, Deserialize)]
            struct Fields {
                $field: f64,
                #[serde(default, skip_serializing_if = "Option::is_none")]
                $exact: Option<Fraction>,
            }

            pub fn serialize<S: Serializer>(number: &Exact, to: S) -> Result<S::Ok, S::Error> {
                Fields { $field: number.decimal(), $exact: fraction(*number) }.serialize(to)
            }

            pub fn deserialize<'de, D: Deserializer<'de>>(from: D) -> Result<Exact, D::Error> {
                let fields = Fields::deserialize(from)?;
                Ok(told(fields.$field, fields.$exact))
            }
        }
    };
}

optional!(width_ft, width_exact);
optional!(height_ft, height_exact);
required!(rise, rise, rise_exact);
required!(total, quantity, quantity_exact);

/// The quantity of a line: `quantity`, its middle, and its ends `low` and `high`, all null where no number was said. The
/// middle needs no fraction. Ends that lie elsewhere than around it count for nothing.
pub(super) mod quantity {
    use super::*;

    #[derive(Serialize, Deserialize)]
    struct Fields {
        quantity: Option<f64>,
        low: Option<f64>,
        high: Option<f64>,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        low_exact: Option<Fraction>,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        high_exact: Option<Fraction>,
    }

    pub fn serialize<S: Serializer>(quantity: &Option<Quantity>, to: S) -> Result<S::Ok, S::Error> {
        let decimal = |of: fn(Quantity) -> Exact| quantity.map(|quantity| of(quantity).decimal());
        let exact = |of: fn(Quantity) -> Exact| quantity.and_then(|quantity| fraction(of(quantity)));
        let fields = Fields {
            quantity: decimal(Quantity::value),
            low: decimal(Quantity::low),
            high: decimal(Quantity::high),
            low_exact: exact(Quantity::low),
            high_exact: exact(Quantity::high),
        };
        fields.serialize(to)
    }

    pub fn deserialize<'de, D: Deserializer<'de>>(from: D) -> Result<Option<Quantity>, D::Error> {
        let Fields { quantity, low, high, low_exact, high_exact } = Fields::deserialize(from)?;
        let Some(middle) = quantity else { return Ok(None) };
        let [low, high] = [(low, low_exact), (high, high_exact)]
            .map(|(end, exact)| end.map_or_else(|| Exact::of_decimal(middle), |end| told(end, exact)));
        let around = Quantity::between(low, high);
        let fits = low <= high && (around.value().decimal() - middle).abs() < 0.0015;
        Ok(Some(if fits { around } else { Quantity::of(Exact::of_decimal(middle)) }))
    }
}

/// The same of another reading, which has these fields only where it gives another number.
pub(super) mod other_quantity {
    use super::*;
    use serde::ser::SerializeMap;

    pub use super::quantity::deserialize;

    pub fn serialize<S: Serializer>(quantity: &Option<Quantity>, to: S) -> Result<S::Ok, S::Error> {
        match quantity {
            Some(_) => super::quantity::serialize(quantity, to),
            None => to.serialize_map(Some(0))?.end(),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use serde_json::json;

    #[derive(Debug, PartialEq, Serialize, Deserialize)]
    struct Numbers {
        #[serde(flatten, with = "super::quantity")]
        quantity: Option<Quantity>,
        #[serde(flatten, with = "super::width_ft")]
        width: Option<Exact>,
        #[serde(flatten, with = "super::rise")]
        rise: Exact,
    }

    #[track_caller]
    fn comes_back(quantity: Option<Quantity>, width: Option<Exact>, rise: Exact) {
        let numbers = Numbers { quantity, width, rise };
        let text = serde_json::to_string(&numbers).unwrap();
        assert_eq!(serde_json::from_str::<Numbers>(&text).unwrap(), numbers, "{text}");
    }

    #[test]
    fn every_number_comes_back_as_it_was() {
        for parts in [1, 2, 3, 6, 7, 12, 192, 1000] {
            for number in (0..400).map(|n| Exact::new(n, parts)) {
                let range = Quantity::between(number, number + Exact::new(7, 6));
                comes_back(Some(Quantity::of(number)), Some(number), number);
                comes_back(Some(range), None, number);
            }
        }
        comes_back(None, None, Exact::ZERO);
    }

    #[test]
    fn a_fraction_stands_beside_what_is_no_decimal() {
        let quantity = Some(Quantity::between(Exact::from_integer(8), Exact::new(25, 3)));
        let written = serde_json::to_value(Numbers { quantity, width: None, rise: 6.into() }).unwrap();
        let expected = json!({ "quantity": 8.167, "low": 8.0, "high": 8.333, "high_exact": "25/3",
                               "width_ft": null, "rise": 6.0 });
        assert_eq!(written, expected);
    }

    #[test]
    fn older_drafts_and_drafts_changed_by_hand_are_read_by_their_decimals() {
        let read = |value| serde_json::from_value::<Numbers>(value).unwrap();
        let older =
            read(json!({ "quantity": 8.333, "low": 8.333, "high": 8.333, "width_ft": 6.667, "rise": 6 }));
        assert_eq!(older.quantity, Some(Quantity::of(Exact::new(25, 3))));
        assert_eq!((older.width, older.rise), (Some(Exact::new(20, 3)), 6.into()));
        let changed = json!({ "quantity": 9, "low": 8.333, "high": 8.333, "low_exact": "25/3", "high_exact": "25/3",
                              "width_ft": 7.0, "width_exact": "20/3", "rise": 6 });
        assert_eq!(
            (read(changed.clone()).quantity, read(changed).width),
            (Some(Quantity::of(9)), Some(7.into()))
        );
        let bare = read(json!({ "quantity": 9, "rise": 6 }));
        assert_eq!((bare.quantity, bare.width), (Some(Quantity::of(9)), None));
        let middle_lacks = read(json!({ "quantity": null, "low": 3, "high": 4, "rise": 6 }));
        assert_eq!(middle_lacks.quantity, None);
    }

    #[test]
    fn a_fraction_that_is_none_is_refused_in_words() {
        let wrong = json!({ "quantity": null, "rise": 6, "rise_exact": "6.5" });
        let error = serde_json::from_value::<Numbers>(wrong).unwrap_err().to_string();
        assert_eq!(error, "an exact number is whole, or one by another, such as \"25/3\"");
    }
}
