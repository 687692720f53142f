//! To scale: in one view, every dimension is as many units of the picture long for a millimetre as
//! every other, across and along alike (ISO 5455: the scale is the ratio of a length in the drawing
//! to that of the thing; from memory). Measured between the points of the arrow heads, which the
//! dimension lines end at (ISO 129-1, from memory), against the value that stands beside them.

use faceside::procedure::Drawing;
use faceside::render::figure::figure;

use super::figures::texts;
use super::fixture;

/// Part of a length by which rounding to hundredths, of the picture and of the value, may put it off.
const ROUNDED: f64 = 0.01;

/// The points of all arrow heads of a picture, in its order.
fn heads(svg: &str) -> Vec<(f64, f64)> {
    let filled = svg
        .split("<path fill=\"#000\" stroke=\"none\" d=\"M")
        .skip(1);
    filled
        .filter(|path| path.split('"').next().unwrap().ends_with('Z'))
        .map(|path| {
            let mut numbers = path.split([' ', 'L']);
            let mut next = || numbers.next().unwrap().parse().unwrap();
            (next(), next())
        })
        .collect()
}

/// The dimensions of a picture: how they are labelled, their millimetres, units for a millimetre.
fn dimensions(svg: &str) -> Vec<(String, f64, f64)> {
    let labels = texts(svg).into_iter().filter_map(|text| {
        let value = text.strip_suffix(" mm")?.rsplit(' ').next()?.parse().ok()?;
        Some((text, value))
    });
    let labels: Vec<(String, f64)> = labels.collect();
    let heads = heads(svg);
    // Those of the feed and of the turning come before the dimensions.
    let of_dimensions = &heads[heads.len() - 2 * labels.len()..];
    let pairs = of_dimensions.chunks(2).zip(labels);
    pairs
        .map(|(ends, (label, value))| {
            let long = libm::hypot(ends[0].0 - ends[1].0, ends[0].1 - ends[1].1);
            (label, value, long / value)
        })
        .collect()
}

/// Whether a view is to one scale; what is not, where it is not.
pub(super) fn to_scale(svg: &str) -> Result<usize, String> {
    let all = dimensions(svg);
    let Some((_, _, first)) = all.first() else {
        return Ok(0);
    };
    let off = all.iter().find(|(_, value, scale)| {
        let allowed = ROUNDED + 0.01 / value + 0.02 / (value * first);
        (scale / first - 1.0).abs() > allowed
    });
    match off {
        Some(off) => Err(format!("{off:?} among {all:?}")),
        None => Ok(all.len()),
    }
}

/// A drawing of another size, its lengths shown to a ten-thousandth.
fn sized(mut drawing: Drawing, factor: f64) -> Drawing {
    for (length, shown) in drawing.lengths.values_mut() {
        *length = length.times(factor);
        *shown = format!("{:.4} mm", length.to_mm());
    }
    drawing
}

#[test]
fn every_dimension_of_a_view_is_drawn_to_one_scale() {
    let mut dimensions = 0;
    for factor in [0.4, 1.0, 3.0] {
        for drawing in fixture::every_drawing() {
            let drawing = sized(drawing, factor);
            let shape = drawing.shape.clone();
            // A machine's own size stays, so a blade may come to stand higher than it is wide.
            let Ok(drawn) = figure(&drawing) else {
                assert!(drawing.plan.is_some(), "{shape}");
                continue;
            };
            for view in drawn.views {
                let found = to_scale(&view.svg);
                dimensions += found.unwrap_or_else(|off| panic!("{shape}, {}: {off}", view.title));
            }
        }
    }
    // Nothing found would be nothing tested.
    assert!(dimensions > 3 * fixture::every_drawing().len());
}

#[test]
fn a_dimension_out_of_scale_is_noticed() {
    let drawing = sized(fixture::every_drawing().remove(0), 1.0);
    let view = figure(&drawing).unwrap().views.remove(0);
    assert!(to_scale(&view.svg).unwrap() > 1);
    let (label, value, _) = dimensions(&view.svg).remove(0);
    let other = label.replace(&format!("{value:.4}"), &format!("{:.4}", value * 1.05));
    assert!(to_scale(&view.svg.replace(&label, &other)).is_err());
}
