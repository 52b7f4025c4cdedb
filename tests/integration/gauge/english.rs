//! Small words, at the places where English turns.

use loopwright::gauge::english::{agreeing, capital, counted, every, list, ordinal, plural, times};

#[test]
fn endings_of_places() {
    let told = |n| ordinal(n).to_string();
    for (n, wanted) in [(0, "0th"), (1, "1st"), (2, "2nd"), (3, "3rd"), (4, "4th"), (10, "10th")] {
        assert_eq!(told(n), wanted);
    }
    for n in [11, 12, 13, 111, 112, 1_013] {
        assert!(told(n).ends_with("th"), "{n}");
    }
    assert_eq!(
        (told(101), told(122), told(1_003)),
        ("101st".into(), "122nd".into(), "1003rd".into())
    );
}

#[test]
fn more_than_one() {
    for (one, many) in [
        ("row", "rows"),
        ("stitch", "stitches"),
        ("inch", "inches"),
        ("edge", "edges"),
        ("body", "bodies"),
        ("bay", "bays"),
        ("purl", "purls"),
        ("loss", "losses"),
    ] {
        assert_eq!(plural(one).to_string(), many);
    }
    assert_eq!(counted(-1, "row").to_string(), "-1 rows");
    assert_eq!(counted(1_u32, "row").to_string(), "1 row");
    assert_eq!((agreeing(1_u32, "is", "are"), agreeing(0_u32, "is", "are")), ("is", "are"));
}

#[test]
fn rhythms_and_lists() {
    assert_eq!(every(11, "row").to_string(), "every 11th row");
    assert_eq!((times(1).to_string(), times(4).to_string()), ("once".into(), "4 times".into()));
    assert_eq!(list(["a"; 0], "and"), "");
    assert_eq!(list(["a", "b", "c", "d"], "or"), "a, b, c or d");
    assert_eq!((capital(""), capital("été")), (String::new(), "Été".into()));
}
