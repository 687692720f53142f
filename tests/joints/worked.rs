//! A calculation as text and as JSON.

use faceside::joints::{self, FitBudget, Tolerances};
use faceside::render::worked;
use faceside::units::{Angle, Length, Scale, Unit};
use serde_json::json;

use crate::{DOVETAIL_MM, answer, calculator, refusal, with};

// Acceptance: stock 19, cutter 12.7, 14 degrees, depth 9.5 mm (joinery 3.1).
#[test]
fn json_has_the_full_figure_and_what_is_shown() {
    let (name, scale) = ("sliding-dovetail", Scale::caliper(Unit::Mm));
    let json = worked::json(calculator(name), &answer(name, DOVETAIL_MM), None, scale);
    assert_eq!(json["calculator"], name);
    assert_eq!(
        json["given"]["cutter"],
        json!({"kind": "length", "mm": 12.7, "shown": "12.7 mm"})
    );
    assert_eq!(
        json["given"]["angle"],
        json!({"kind": "angle", "deg": 14.0, "shown": "14 deg"})
    );
    assert_eq!(json["given"]["clearance"]["mm"], 0.0);
    let mm = |result: &str| json["results"][result]["mm"].as_f64().unwrap();
    for (result, wanted) in [("mouth", 7.96277), ("exposure", 5.51862), ("end_cut", 3.15)] {
        crate::near(mm(result), wanted);
        assert!(json["results"][result]["mm"].to_string().len() <= "7.962768".len());
    }
    // The mouth is rounded down, the neck of the same size up.
    assert_eq!(json["results"]["mouth"]["shown"], "7.96 mm");
    assert_eq!(json["results"]["neck"]["shown"], "7.97 mm");
    assert_eq!(
        json["results"]["passes"],
        json!({"kind": "count", "count": 1, "shown": "1"})
    );
    assert!(
        json["warnings"]
            .as_array()
            .is_some_and(|warnings| warnings.len() == 2)
    );
    assert!(json["notes"].is_array() && json["fit"]["influences"].is_array());
    // 3.175 mm is 1/8 in: no binary noise.
    let eighth = with(DOVETAIL_MM, &[("depth", "1/8 in")]);
    let inch = Scale::Fraction { under: 64 };
    let json = worked::json(calculator(name), &answer(name, &eighth), None, inch);
    let depth = json!({"kind": "length", "mm": 3.175, "shown": "1/8 in"});
    assert_eq!(json["given"]["depth"], depth);
    assert!(json.to_string().contains("\"mm\":3.175,"));
}

#[test]
fn json_lists_each_fence_distance() {
    let texts = [
        ("width", "17.7 mm"),
        ("cutter", "12 mm"),
        ("from", "100.004 mm"),
    ];
    let scale = Scale::caliper(Unit::Mm);
    let json = worked::json(
        calculator("housing"),
        &answer("housing", &texts),
        None,
        scale,
    );
    // The first up, the last down: 106.004 and 111.704 mm.
    let fences = json!([
        {"kind": "length", "mm": 106.004, "shown": "106.01 mm"},
        {"kind": "length", "mm": 111.704, "shown": "111.70 mm"},
    ]);
    assert_eq!(json["results"]["fences"], fences);
}

#[test]
fn a_refusal_has_its_four_parts() {
    let texts = [("width", "17 mm"), ("cutter", "18 mm")];
    let refusal = refusal("housing", &texts);
    let json = worked::json_refused(calculator("housing"), &refusal);
    let wanted = json!({"calculator": "housing", "refused": {
        "what": "the cutter is wider than the housing",
        "is": "cutter 18.00 mm (0.709 in)",
        "may_be": "cutter at most 17.00 mm (0.669 in)",
        "instead": "Take a smaller cutter.",
    }});
    assert_eq!(json, wanted);
    let text = worked::refused(calculator("housing"), &refusal);
    for part in [
        &refusal.what,
        &refusal.is,
        &refusal.may_be,
        &refusal.instead,
    ] {
        assert!(text.contains(part.as_str()), "{text}");
    }
}

#[test]
fn the_table_says_where_each_value_is_from_and_how_it_is_rounded() {
    let (name, scale) = ("sliding-dovetail", Scale::caliper(Unit::Mm));
    let answer = answer(name, DOVETAIL_MM);
    let tolerances = Tolerances {
        measuring: Length::mm(0.08),
        fence: Length::mm(0.03),
        height: Length::mm(0.08),
        diameter: Length::mm(0.05),
        angle: Angle::degrees(0.0),
    };
    let budget = FitBudget::of(calculator(name), &answer, &tolerances);
    let text = worked::table(calculator(name), &answer, budget.as_ref(), scale);
    let line = |start: &str| {
        let found = text
            .lines()
            .find(|line| line.trim_start().starts_with(start));
        found
            .unwrap_or_else(|| panic!("no {start} in {text}"))
            .to_owned()
    };
    assert!(line("clearance").contains("usual") && line("stock").contains("given"));
    // 12.7 - 19 tan 14 = 7.962768 mm; the neck, as wide, is rounded the other way.
    assert!(line("mouth").contains("7.96 mm") && line("neck").contains("7.97 mm"));
    let text_flat = flat(&text);
    assert!(text_flat.contains("at the side's face rounded down, remainder 0.002768 mm"));
    assert!(text_flat.contains("at its shoulder rounded up, remainder -0.007232 mm"));
    assert!(text_flat.contains("each face that is cut; exact"), "{text}");
    // Joinery 3.1: 0.22989 and 0.11871 mm.
    assert!(line("worst case").ends_with("0.230 mm"));
    assert!(line("root of the sum").ends_with("0.119 mm"));
    assert!(line("largest").contains("thicker"));
    // The first line of the sketch keeps its blanks, so that the drawing stands upright.
    assert!(text.contains("\n   socket, seen from its end "), "{text}");
    for warning in answer.worked.warnings.iter().chain(&answer.worked.notes) {
        assert!(text_flat.contains(warning.as_str()), "{warning}");
    }
}

/// The words without the ends of lines between them.
fn flat(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

#[test]
fn list_and_explain_tell_all_that_the_table_knows() {
    let list = flat(&worked::list());
    for calculator in joints::ALL {
        assert!(list.contains(calculator.name) && list.contains(calculator.summary));
        let text = flat(&worked::explain(calculator));
        for input in calculator.inputs {
            assert!(
                text.contains(input.name) && text.contains(input.meaning),
                "{text}"
            );
            assert!(text.contains(&input.range_words()), "{text}");
        }
        for output in calculator.results {
            assert!(
                text.contains(output.name) && text.contains(output.meaning),
                "{text}"
            );
        }
        for words in calculator.refuses.iter().chain(calculator.warns) {
            assert!(text.contains(words), "{text}");
        }
    }
}

// 70 degrees Fahrenheit are 21.111111 degrees Celsius; 9.2 %: Handbook Table 4-2.
#[test]
fn amounts_are_shown_in_the_readers_unit() {
    let texts = [("temperature", "70 degF"), ("humidity", "50 %")];
    let (moisture, answer) = (calculator("moisture"), answer("moisture", &texts));
    let mm = worked::json(moisture, &answer, None, Scale::caliper(Unit::Mm));
    let shown = json!({"kind": "temperature", "deg_c": 21.111111, "shown": "21.111111 degC"});
    assert_eq!(mm["given"]["temperature"], shown);
    assert_eq!(mm["results"]["moisture"]["shown"], "9.2 %");
    let inch = worked::json(moisture, &answer, None, Scale::caliper(Unit::Inch));
    assert_eq!(inch["given"]["temperature"]["shown"], "70 degF");
    assert_eq!(inch["given"]["temperature"]["deg_c"], 21.111111);
}

#[test]
fn a_long_list_of_words_stands_under_the_inputs() {
    let text = worked::explain(calculator("movement"));
    assert!(text.contains("\nWords for species\n"));
    for word in faceside::wood::shrinkage_rows().iter().map(|row| &row.word) {
        assert!(text.contains(word.as_str()), "{word}");
    }
}
