//! Checklists and site pages as a reader gets them: every caution before its step, nothing
//! injected, the same bytes each time, the right paper.
//!
//! The job is written by hand (`render_pages/fixture.rs`); its cautions are selected from a book
//! written here, since nothing else can make them. Geometry of the figures is checked against
//! `joinery.md` 3.1 (the source of the fixture's lengths), measured on the drawing itself.

#![expect(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    reason = "a helper of tests fails loudly"
)]

use faceside::caution::{Book, Selected};
use faceside::diag::{Code, Fault, Source};
use faceside::formula::Values;
use faceside::jobs::Sheets;
use faceside::procedure::{Drawing, Run};
use faceside::render::figure::figure;
use faceside::render::{sheets_json, site};
use faceside::search::Speech;
use faceside::shop::Paper;

#[path = "render_pages/calculator_figures.rs"]
mod calculator_figures;
#[path = "render_pages/figures.rs"]
mod figures;
#[path = "render_pages/fixture.rs"]
mod fixture;
#[path = "render_pages/job_pages.rs"]
mod job_pages;
#[path = "render_pages/plan_views.rs"]
mod plan_views;
#[expect(dead_code, reason = "parts of procedures are typed elsewhere")]
#[path = "live/random.rs"]
mod random;
#[path = "render_pages/scale.rs"]
mod scale;

fn checklist_text(job: &Sheets, width: usize) -> String {
    faceside::render::checklist_text(job, width, &Speech::default())
}

fn checklist_html(job: &Sheets, paper: Paper) -> Result<Vec<(String, String)>, Fault> {
    faceside::render::checklist_html(job, paper, &Speech::default())
}

/// Every text with markup, quotes, a change of direction and a character of four bytes.
const HOSTILE: &str = "<script>alert(1)</script>\"'><b onx=1>\u{202e}\u{1b}[31m 𝔽 &amp; </style>";

fn rule(id: &str, stands: &str, signal: &str, says: [&str; 3]) -> String {
    let [hazard, harm, avoid] = says.map(|text| serde_json::to_string(text).unwrap());
    let kind = match stands {
        "adjust" => "isolate",
        "cut" => "hand-distance",
        _ => "dust",
    };
    format!(
        "  - caution: {id}\n    kind: {kind}\n    operations: every\n    stands: {stands}\n    \
         signal: {signal}\n    hazard: {hazard}\n    harm: {harm}\n    avoid: {avoid}\n    \
         sources: [{{cite: workshop practice, fact: RT-01, status: practice}}]\n"
    )
}

const SAYS: [(&str, &str, &str, [&str; 3]); 5] = [
    (
        "t-dust",
        "sheet",
        "warning",
        [
            "The cutter fills the air with fine dust.",
            "Wood dust brings asthma.",
            "Extraction running before the cut.",
        ],
    ),
    (
        "t-isolate",
        "adjust",
        "warning",
        [
            "The cutter can start while your hand is at it.",
            "It cuts to the bone.",
            "Machine unplugged, the plug in sight.",
        ],
    ),
    (
        "t-hands",
        "cut",
        "danger",
        [
            "The cutter rises out of sight inside the work.",
            "A hand above the groove loses fingers.",
            "Hands on the push-blocks beside the line of cut.",
        ],
    ),
    (
        "t-splinter",
        "cut",
        "caution",
        [
            "The edge throws splinters.",
            "They stick in the skin.",
            "Edges broken before the cut.",
        ],
    ),
    (
        "t-tear",
        "cut",
        "notice",
        [
            "The exit tears.",
            "The edge is spoiled.",
            "A backing strip behind the exit.",
        ],
    ),
];

/// Cautions selected from a book that says these sentences.
fn selected_from(says: &[(&str, &str, &str, [&str; 3])]) -> Selected {
    let rules: String = says
        .iter()
        .map(|(id, stands, signal, says)| rule(id, stands, signal, *says))
        .collect();
    let file = format!(
        "machine: finish\ncautions:\n{rules}limits: {{long: long, short: short}}\npairs:\n  - \
         {{machine: finish, operation: finish, required: [dust]}}\n"
    );
    let (book, faults) = Book::read(&[Source::new("test.yaml", file)]);
    assert!(!faults.any_error(), "{faults:?}");
    book.select("finish", "finish", &Values::default())
        .expect("the book covers the pair")
}

fn selected() -> Selected {
    selected_from(&SAYS)
}

/// The text of HTML without its tags, entities read, spaces joined.
fn text_of(html: &str) -> String {
    let body = html.split("<body").nth(1).expect("a page has a body");
    let mut text = String::new();
    let mut inside = true;
    for one in body.chars() {
        match one {
            '<' => inside = true,
            '>' => {
                inside = false;
                text.push(' ');
            }
            one if !inside => text.push(one),
            _ => {}
        }
    }
    let text = text
        .replace("&#39;", "'")
        .replace("&quot;", "\"")
        .replace("&lt;", "<")
        .replace("&gt;", ">")
        .replace("&amp;", "&");
    joined(&text)
}

fn joined(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

fn place(text: &str, part: &str, from: usize) -> usize {
    let found = text[from..].find(part);
    from + found.unwrap_or_else(|| panic!("`{part}` is not after byte {from} of: {text}"))
}

/// Sentences of the cautions that stand at a place.
fn sentences(stands: &str) -> impl Iterator<Item = &'static str> {
    let there = SAYS.iter().filter(move |(_, at, _, _)| *at == stands);
    there.flat_map(|(_, _, _, says)| says.iter().copied())
}

/// Every caution before what it guards, in the text of one sheet.
#[track_caller]
fn guarded(text: &str) {
    let first = place(text, "Mark FRONT on the outside", 0);
    for sentence in sentences("sheet") {
        assert!(
            place(text, sentence, 0) < first,
            "`{sentence}` after a step"
        );
    }
    let adjust = [
        "Fit 18 mm straight in the collet.",
        "Set the cutter 6 mm above the table.",
        "Clamp the stop block 255 mm",
    ];
    let mut before = first;
    for act in adjust {
        let at = place(text, act, before);
        for sentence in sentences("adjust") {
            assert!(
                place(text, sentence, before) < at,
                "`{sentence}` after `{act}`"
            );
        }
        before = at;
    }
    let cut = place(text, "Feed the open end first", before);
    for sentence in sentences("cut") {
        assert!(
            place(text, sentence, before) < cut,
            "`{sentence}` after the cut"
        );
    }
}

#[test]
fn every_caution_stands_before_its_step_on_every_checklist() {
    let files = checklist_html(&fixture::job(&selected()), Paper::A4).unwrap();
    let sheets: Vec<_> = files
        .iter()
        .filter(|(name, _)| name.starts_with('0'))
        .collect();
    assert_eq!(sheets.len(), 4, "one file for each set-up");
    for (_, html) in sheets {
        guarded(&text_of(html));
    }
}

#[test]
fn every_caution_stands_before_its_step_where_all_sheets_are_printed_at_once() {
    let files = checklist_html(&fixture::job(&selected()), Paper::A4).unwrap();
    let (_, all) = files.iter().find(|(name, _)| name == "all.html").unwrap();
    let sheets: Vec<&str> = all.split("<article").skip(2).collect();
    assert_eq!(
        sheets.len(),
        6,
        "four checklists, and the figures and faults of their procedure"
    );
    for sheet in &sheets[..4] {
        guarded(&text_of(&format!("<body>{sheet}")));
    }
}

#[test]
fn every_caution_stands_before_its_step_in_the_terminal() {
    for width in [0, 24, 40, 80, 200] {
        let text = checklist_text(&fixture::job(&selected()), width);
        let bars = format!("{}\n", "=".repeat(width.clamp(24, 100)));
        let parts: Vec<&str> = text.split(&bars).collect();
        // Each sheet is: bar, title, bar, body.
        let bodies: Vec<&&str> = parts.iter().skip(2).step_by(2).collect();
        assert_eq!(
            bodies.len(),
            7,
            "overview, four checklists, the figures and the faults at width {width}"
        );
        for body in &bodies[1..5] {
            let body = joined(body);
            let body = ["DANGER: ", "WARNING: ", "CAUTION: ", "NOTICE: "]
                .iter()
                .fold(body, |body, word| body.replace(word, ""));
            guarded(&joined(&body.replace("/!\\", " ")));
        }
    }
}

#[test]
fn every_caution_stands_before_its_step_on_a_procedure_page() {
    let files = site(&fixture::site_pages(&selected())).unwrap();
    let page = file(&files, "procedures/stopped-housing.html");
    guarded(&text_of(&page));
}

/// safety.md 6.1: a notice never bears the triangle; the three words of injury do (read-2nd,
/// Z535.4-2007).
#[test]
fn signal_words_carry_the_triangle_only_for_injury() {
    for (_, _, signal, says) in SAYS {
        let one = [("only", "sheet", signal, says)];
        let html = checklist_html(&fixture::job(&selected_from(&one)), Paper::A4).unwrap();
        let text = checklist_text(&fixture::job(&selected_from(&one)), 80);
        let injury = signal != "notice";
        assert_eq!(html[1].1.contains("class=\"alert\""), injury, "{signal}");
        assert_eq!(text.contains("/!\\"), injury, "{signal}");
        let word = signal.to_uppercase();
        assert!(
            html[1].1.contains(&format!("<span>{word}</span>")),
            "{word}"
        );
    }
}

/// A page without the scripts that its template names, and without the data of its form, in which
/// no markup may begin.
fn without_scripts(page: &str) -> String {
    let mut page = page.to_owned();
    for root in ["", "../", "../../"] {
        for name in ["search", "live"] {
            page = page.replace(
                &format!("<script defer src=\"{root}{name}.js\"></script>"),
                "",
            );
        }
    }
    if let Some((before, data)) = page.split_once("<script type=\"application/json\">") {
        let (data, after) = data.split_once("</script>").unwrap();
        assert!(!data.contains('<'), "{data}");
        page = [before, after].concat();
    }
    page
}

fn file(files: &[(String, Vec<u8>)], name: &str) -> String {
    let found = files.iter().find(|(path, _)| path == name);
    let (_, bytes) = found.unwrap_or_else(|| panic!("no file {name}"));
    without_scripts(&String::from_utf8(bytes.clone()).unwrap())
}

/// Nothing that could act: no tag, attribute or rule from a text, no control, no turned writing.
#[track_caller]
fn inert(text: &str) {
    let acting = ["<script", "<b onx", "\u{202e}", "\u{1b}", "alert(1)</style"];
    for part in acting {
        assert!(
            !text.contains(part),
            "`{}` came through",
            part.escape_unicode()
        );
    }
    assert!(text.contains('𝔽'), "the character of four bytes is lost");
}

#[test]
fn hostile_texts_come_out_inert_on_paper_and_in_the_terminal() {
    let hostile = [
        ("h", "cut", "warning", [HOSTILE; 3]),
        ("d", "sheet", "notice", [HOSTILE; 3]),
    ];
    let job = fixture::hostile(fixture::job(&selected_from(&hostile)), HOSTILE);
    for paper in [Paper::A4, Paper::Letter] {
        for (name, html) in checklist_html(&job, paper).unwrap() {
            inert(&html);
            assert_eq!(html.matches("</style>").count(), 1, "{name}");
            let safe = |one: char| one.is_ascii_lowercase() || one.is_ascii_digit() || one == '-';
            assert!(name.trim_end_matches(".html").chars().all(safe), "{name}");
        }
    }
    let text = checklist_text(&job, 80);
    assert!(!text.chars().any(|one| one.is_control() && one != '\n'));
    assert!(!text.contains('\u{202e}'));
    assert!(text.contains('𝔽'));
}

#[test]
fn hostile_texts_come_out_inert_on_the_site_and_in_drawings() {
    let hostile = [
        ("h", "cut", "warning", [HOSTILE; 3]),
        ("d", "sheet", "notice", [HOSTILE; 3]),
    ];
    let pages = fixture::hostile_site(&selected_from(&hostile), HOSTILE);
    for (name, bytes) in site(&pages).unwrap() {
        if name.ends_with(".html") {
            inert(&without_scripts(&String::from_utf8(bytes).unwrap()));
        }
    }
    // Short enough to stand as a label; a longer one stands in the key only.
    let label = "<b onx>\u{202e}'𝔽";
    let mut drawing = fixture::drawings().remove(2);
    for (_, shown) in drawing.lengths.values_mut() {
        label.clone_into(shown);
    }
    for view in figure(&drawing).unwrap().views.iter().take(2) {
        inert(&view.svg);
        assert!(view.svg.contains(" &lt;b onx&gt;\u{fffd}&#39;𝔽</text>"));
    }
}

#[test]
fn links_of_notes_lead_somewhere_or_are_inert() {
    let mut pages = fixture::site_pages(&selected());
    pages.notes[0].markdown = "[a](javascript:alert(1)) [b](JaVaScRiPt:x) [c](data:text/html,x) \
        <img src=x onerror=alert(1)> ![picture](https://example.invalid/p.png) \
        [d](procedure:stopped-housing) [e](caution:router-table) [f](https://example.invalid/)"
        .to_owned();
    let page = file(&site(&pages).unwrap(), "notes/plywood.html").to_lowercase();
    for acting in ["href=\"javascript", "href=\"data", "<img", "src=\""] {
        assert!(!page.contains(acting), "{acting}");
    }
    assert!(page.contains("href=\"../procedures/stopped-housing.html\""));
    assert!(page.contains("href=\"../cautions/router-table.html\""));
    assert!(page.contains("href=\"https://example.invalid/\""));
    pages.notes[0].markdown = "[gone](procedure:no-such-joint)".to_owned();
    let faults = site(&pages).unwrap_err();
    assert_eq!(faults.iter().next().unwrap().code, Code::LINK_BROKEN);
}

#[test]
fn no_page_asks_the_network_for_anything_or_needs_a_script() {
    let mut all = checklist_html(&fixture::job(&selected()), Paper::A4).unwrap();
    for (name, bytes) in site(&fixture::site_pages(&selected())).unwrap() {
        all.push((name, without_scripts(&String::from_utf8(bytes).unwrap())));
    }
    for (name, text) in all {
        // The type of the pages is within their style.
        let text = text.replace("url(data:font/woff2;base64,", "");
        for asking in [
            "<script",
            "src=",
            "@import",
            "url(",
            "href=\"http",
            "href=\"/",
            "<details",
        ] {
            assert!(!text.contains(asking), "`{asking}` in {name}");
        }
    }
}

#[test]
fn every_link_of_the_site_leads_to_a_file_of_it() {
    let mut pages = fixture::site_pages(&selected());
    let mut procedure = fixture::procedure_page(&selected());
    procedure.after.clear();
    pages.procedures = Box::new(vec![procedure]);
    let files = site(&pages).unwrap();
    let names: Vec<&str> = files.iter().map(|(name, _)| name.as_str()).collect();
    let mut seen = 0;
    for (from, bytes) in &files {
        let text = String::from_utf8(bytes.clone()).unwrap();
        for link in text.split("href=\"").skip(1) {
            let link = link.split('"').next().unwrap();
            if link.starts_with('#') {
                continue;
            }
            let mut folders: Vec<&str> = from.split('/').collect();
            folders.pop();
            let mut rest = link;
            while let Some(above) = rest.strip_prefix("../") {
                folders.pop().expect("a link leaves the site");
                rest = above;
            }
            folders.push(rest);
            let target = folders.join("/");
            assert!(names.contains(&target.as_str()), "{from} links to {target}");
            seen += 1;
        }
    }
    assert!(seen > 50, "{seen} links");
}

/// The tablet at the bench says what the paper says: every checklist is reached from home by way of
/// the overview, and has each caution that stands on the printed one.
#[test]
fn the_job_in_hand_has_its_sheets_in_the_site() {
    let files = site(&fixture::site_pages(&selected())).unwrap();
    let overview = "jobs/boathouse-lockers/overview.html";
    assert!(file(&files, "index.html").contains(&format!("href=\"{overview}\"")));
    let above = file(&files, overview);
    for (name, printed) in checklist_html(&fixture::job(&selected()), Paper::A4).unwrap() {
        if !name.starts_with('0') {
            continue;
        }
        assert!(above.contains(&format!("href=\"{name}\"")), "{name}");
        let page = file(&files, &format!("jobs/boathouse-lockers/{name}"));
        let said = joined(&text_of(&page));
        assert!(page.contains("href=\"../../jobs/boathouse-lockers/overview.html\""));
        assert!(page.contains("class=\"panel danger"), "{name}");
        for says in SAYS.iter().flat_map(|one| one.3) {
            assert_eq!(
                said.contains(says),
                joined(&text_of(&printed)).contains(says),
                "{says}"
            );
        }
    }
    let mut none = fixture::site_pages(&selected());
    none.job = None;
    let files = site(&none).unwrap();
    assert!(!files.iter().any(|(name, _)| name.starts_with("jobs/")));
    assert!(!file(&files, "index.html").contains("The job in hand"));
}

/// A4 and Letter by their CSS names (CSS Paged Media 3, `page-size`; from memory).
#[test]
fn paper_size_is_the_shops() {
    for (paper, size) in [(Paper::A4, "size: A4;"), (Paper::Letter, "size: letter;")] {
        for (name, html) in checklist_html(&fixture::job(&selected()), paper).unwrap() {
            assert!(html.contains(size), "{name}");
            assert!(
                html.contains("counter(page) \" of \" counter(pages)"),
                "{name}"
            );
        }
    }
}

#[test]
fn limits_stand_in_full_on_the_overview_and_in_short_on_every_sheet() {
    let files = checklist_html(&fixture::job(&selected()), Paper::A4).unwrap();
    assert!(text_of(&files[0].1).contains(fixture::LIMITS));
    for (name, html) in &files[1..] {
        assert!(text_of(html).contains(fixture::LIMITS_SHORT), "{name}");
    }
    assert!(joined(&checklist_text(&fixture::job(&selected()), 80)).contains(fixture::LIMITS));
}

#[test]
fn every_step_in_json_holds_its_cautions() {
    let job = sheets_json(&fixture::job(&selected()));
    let lists = job["checklists"].as_array().unwrap();
    assert_eq!(lists.len(), 4);
    let holds = |cautions: &serde_json::Value, stands: &str| {
        let text = cautions.to_string();
        sentences(stands).all(|sentence| text.contains(sentence))
    };
    for list in lists {
        assert!(holds(&list["standing"], "sheet"));
        let steps = list["steps"].as_array().unwrap();
        assert!(
            steps[1..4]
                .iter()
                .all(|step| holds(&step["cautions"], "adjust"))
        );
        assert!(holds(&steps[4]["cautions"], "cut"));
    }
}

/// procedures.md C12 (second-hand, CR549): the completion line is the last printed item.
#[test]
fn the_completion_line_is_last() {
    let files = checklist_html(&fixture::job(&selected()), Paper::A4).unwrap();
    let complete = |name: &str| name.starts_with('0') || name == "overview.html";
    for (name, html) in files.into_iter().filter(|(name, _)| complete(name)) {
        let text = text_of(&html);
        assert!(
            text.trim_end().ends_with("Initials date time"),
            "{name}: {text}"
        );
    }
}

#[test]
fn a_sheet_with_an_empty_slot_is_refused() {
    let mut job = fixture::job(&selected());
    job.checklists[1].set_up.steps[2].act = vec![Run::Value {
        name: "depth".to_owned(),
        shown: " ".to_owned(),
    }];
    let fault = checklist_html(&job, Paper::A4).unwrap_err();
    assert_eq!(fault.code, Code::VALUE_MISSING);
    assert!(fault.message.contains("`depth`"), "{}", fault.message);
}

#[test]
fn the_same_job_gives_the_same_bytes() {
    let job = fixture::job(&selected());
    let pages = fixture::site_pages(&selected());
    assert_eq!(
        checklist_html(&job, Paper::A4).unwrap(),
        checklist_html(&job, Paper::A4).unwrap()
    );
    assert_eq!(checklist_text(&job, 80), checklist_text(&job, 80));
    assert_eq!(site(&pages).unwrap(), site(&pages).unwrap());
}

#[test]
fn no_line_of_the_terminal_is_wider_than_asked() {
    let text = checklist_text(&fixture::job(&selected()), 60);
    for line in text.lines() {
        assert!(line.chars().count() <= 60, "{line}");
    }
}

/// Points of the first thick outline of a view, in the picture's own units.
fn outline(svg: &str) -> Vec<(f64, f64)> {
    let path = svg.split("stroke-width=\"2.4\" d=\"M").nth(1).unwrap();
    let path = path.split('Z').next().unwrap();
    let point = |pair: &str| {
        let (x, y) = pair.split_once(' ').unwrap();
        (x.parse().unwrap(), y.parse().unwrap())
    };
    path.split('L').map(point).collect()
}

/// joinery.md 3.1: D 12.7, 14 degrees, h 9.5, T 19 give m 7.96277, e 5.51862, k 3.15; so the
/// walls lean by tan 14 = 0.249328, the neck is as wide as the mouth, the end as the base.
#[test]
fn a_sliding_dovetail_is_drawn_to_scale() {
    let mut drawing = fixture::drawings().remove(2);
    for (name, exact) in [("mouth", 7.96277), ("exposure", 5.51862)] {
        let length = faceside::units::Length::mm(exact);
        drawing.lengths.get_mut(name).unwrap().0 = length;
    }
    let figure = figure(&drawing).unwrap();
    let socket = outline(&figure.views[0].svg);
    let (mouth_left, base_left, base_right, mouth_right) =
        (socket[1], socket[2], socket[3], socket[4]);
    let close = |one: f64, other: f64| (one - other).abs() < 0.02;
    let deep = base_left.1 - mouth_left.1;
    assert!(close((mouth_left.0 - base_left.0) / deep, 0.249_328));
    assert!(close((base_right.0 - base_left.0) / deep, 12.7 / 9.5));
    assert!(close((mouth_right.0 - mouth_left.0) / deep, 7.96277 / 9.5));
    let tail = outline(&figure.views[1].svg);
    let (face, neck, end, other_end) = (tail[2], tail[3], tail[4], tail[5]);
    assert!(close((face.0 - neck.0) / deep, 5.51862 / 9.5));
    assert!(close((end.0 - other_end.0) / deep, 12.7 / 9.5));
    assert!(close((face.0 - end.0) / deep, 3.15 / 9.5));
}

/// Width of a picture, from its view box.
#[test]
fn every_drawing_says_the_same_in_words() {
    for drawing in fixture::every_drawing() {
        let figure = figure(&drawing).unwrap();
        let said: String = figure.views.iter().map(|view| view.says.as_str()).collect();
        for view in &figure.views {
            assert!(view.svg.contains(&format!("<title>{}</title>", view.title)));
            assert!(view.svg.contains("<desc>"));
        }
        for (name, (_, shown)) in &drawing.lengths {
            assert!(
                said.contains(shown),
                "{}: {name} is not said",
                drawing.shape
            );
        }
    }
}

#[test]
fn a_drawing_that_cannot_be_made_is_refused() {
    let code = |drawing: &Drawing| figure(drawing).unwrap_err().code;
    let mut drawing = fixture::drawings().remove(0);
    drawing.shape = "knot".to_owned();
    assert_eq!(code(&drawing), Code::UNKNOWN_NAME);
    // What a plan view needs differs with the machine and with what guides the work.
    let all = fixture::every_drawing().into_iter();
    for whole in all.filter(|one| one.plan.is_none()) {
        for name in whole.lengths.keys() {
            let mut drawing = whole.clone();
            drawing.lengths.remove(name);
            assert_eq!(
                code(&drawing),
                Code::VALUE_MISSING,
                "{} {name}",
                whole.shape
            );
        }
    }
    let mut deep = fixture::drawings().remove(0);
    deep.lengths.get_mut("depth").unwrap().0 = faceside::units::Length::mm(50.0);
    assert_eq!(code(&deep), Code::OUT_OF_RANGE);
}

// The site's page of a calculator is made from the table: every input and result stands on it with
// its meaning, every range, the source, and the example as it is typed.
#[test]
fn the_page_of_a_calculator_tells_all_of_its_entry() {
    let files = site(&fixture::site_pages(&selected())).unwrap();
    let list = file(&files, "calculators.html");
    for calculator in faceside::joints::ALL {
        let page = file(&files, &format!("calculators/{}.html", calculator.name));
        assert!(list.contains(&format!("calculators/{}.html", calculator.name)));
        let said = joined(&text_of(&page));
        let tells = |words: &str| {
            let words = joined(words);
            assert!(said.contains(&words), "{}: {words}", calculator.name);
        };
        tells(calculator.summary);
        tells(calculator.source);
        for input in calculator.inputs {
            // A cell of its own, since `width` alone stands in many sentences.
            let cell = format!(">{}<", input.name);
            assert!(page.contains(&cell), "{}: {cell}", calculator.name);
            tells(input.meaning);
            match input.kind {
                faceside::units::Kind::Choice => input.options().into_iter().for_each(tells),
                _ => [input.range.0, input.range.1].into_iter().for_each(tells),
            }
        }
        for output in calculator.results {
            let cell = format!(">{}<", output.name);
            assert!(page.contains(&cell), "{}: {cell}", calculator.name);
            tells(output.meaning);
        }
        // As it is typed: a unit at its number, several words in quotes.
        let bare = joined(&page.replace("&quot;", "").replace("&#34;", "")).replace(' ', "");
        for (name, value) in calculator.example {
            let typed = format!("{name}={}", value.replace(' ', ""));
            assert!(bare.contains(&typed), "{}: {typed}", calculator.name);
        }
    }
}

// The procedure's own text stands in its page, for the module: markup in it stays text.
#[test]
fn what_a_page_hands_to_its_module_cannot_end_its_script() {
    let files = site(&fixture::site_pages(&selected())).unwrap();
    let page = files
        .iter()
        .find(|(name, _)| name == "procedures/stopped-housing.html");
    let page = String::from_utf8(page.unwrap().1.clone()).unwrap();
    assert!(page.contains("\\u003c/script>\\u003cimg src=x>"), "{page}");
    assert!(!page.contains("<img"));
}
