//! Every public function that takes a number, given the least and the most there are: an
//! answer or a refusal, never a panic, and no memory before the bound is checked.

use super::{gauge, live, rows, selvedge, stitches};
use loopwright::gauge::{
    Exact, Gauge, Length, ReadingDirection, Repeat, Round, Rows, Stitches, bounds,
};
use loopwright::seams::{
    Buttonholes, Edge, EdgeCount, EdgeStep, FrontBands, Gaps, Holes, Join, Leftover, Pairing,
    Passes, PickUpGroup, PickUpLine, PickUpSpacing, Placement, Rate, Seam, SeamEase, Span,
    Tolerance,
    bounds::{HOLES, PLACES},
    knitted_band, pick_up_ratio, rates, say,
};

const NUMBERS: [u32; 9] = [0, 1, 2, HOLES, HOLES + 1, PLACES, PLACES + 1, bounds::COUNT, u32::MAX];

fn counts() -> impl Iterator<Item = u32> + Clone {
    NUMBERS.into_iter().filter(|&n| n <= bounds::COUNT)
}

fn pairs<T: Clone>(all: impl Iterator<Item = T> + Clone) -> impl Iterator<Item = (T, T)> {
    all.clone().flat_map(move |a| all.clone().map(move |b| (a.clone(), b)))
}

/// The coarsest, the finest and an ordinary one.
fn gauges() -> Vec<Gauge> {
    let texts =
        ["1 x 1 / 1 m", "28 x 40 / 10 cm", "1000 x 1000 / 10 cm", "1 x 999.983 / 999.91 mm"];
    texts.iter().map(|text| text.parse().unwrap()).collect()
}

#[test]
fn edges() {
    let (mut made, mut refused) = (0, 0);
    let mut count = |edge: &Result<Edge, _>| {
        if edge.is_ok() { made += 1 } else { refused += 1 }
    };
    for gauge in gauges() {
        for n in counts() {
            let all = [
                Edge::cast_on("edge", stitches(n), gauge),
                Edge::live("edge", stitches(n), gauge),
                Edge::bound_off("edge", stitches(n), gauge),
                Edge::selvedge("edge", rows(n), gauge),
            ];
            all.iter().for_each(&mut count);
            for to in counts() {
                for edge in all.iter().flatten() {
                    count(&edge.recounted(rows(to)));
                    count(&edge.recounted(stitches(to)));
                }
            }
        }
        for (up, across) in pairs(counts()) {
            let step = EdgeStep { rows: rows(up), stitches: stitches(across) };
            for times in [1, 2, 1_000] {
                let edge = Edge::stepped("edge", vec![step; times], gauge);
                count(&edge);
                if let Ok(edge) = edge {
                    count(&edge.recounted(rows(0)));
                    count(&edge.recounted(Rows::MAX));
                    count(&Edge::joined("edge", vec![edge; 1_000 / times]));
                }
            }
        }
        for text in [
            "4294967296 rows",
            "99999999999999999999 st",
            "1 st x100001",
            "1 st x18446744073709551616",
        ] {
            assert!(Edge::read("edge", text, gauge).is_err(), "{text}");
        }
    }
    assert!(Edge::joined("edge", vec![live("one", 1); 1_001]).is_err());
    assert!(made > 100 && refused > 100, "{made} made, {refused} refused");
    for (n, direction) in NUMBERS.iter().zip(ReadingDirection::ALL.iter().cycle()) {
        assert_eq!(EdgeCount::new(*n, *direction).is_ok(), *n <= bounds::COUNT);
    }
}

#[test]
fn lengths() {
    let most = Length::literal_mm(bounds::LENGTH_MM);
    let ends = [most.negated(), Length::ZERO, most, Length::mm(1).unwrap()];
    for (across, up) in pairs(ends.into_iter()) {
        let Ok(span) = Span::hypotenuse(across, up) else { continue };
        assert!(span.low() <= span.high());
        for times in NUMBERS {
            let Ok(long) = span.times(times) else { continue };
            assert!(long.low() <= long.high() && (times == 0 || long.low() >= span.low()));
        }
        assert!(span.checked_sub(span).is_ok());
    }
}

#[test]
fn seams() {
    let (mut done, mut refused) = (0, 0);
    let tolerances = NUMBERS
        .iter()
        .flat_map(|&n| [Tolerance::counts(n), Tolerance::near(n, n), Tolerance::near(0, n)]);
    for tolerance in tolerances {
        for join in Join::ALL {
            for (a, b) in pairs([1, 2, bounds::COUNT].into_iter()) {
                for overlap in [0, bounds::COUNT] {
                    let (first, second) = match join {
                        Join::RowSeam => (selvedge("a", a), selvedge("b", b)),
                        Join::StitchToRowSeam => (live("a", a), selvedge("b", b)),
                        _ => (live("a", a), live("b", b)),
                    };
                    let seam = Seam::new(join, first, second).within(tolerance);
                    match seam.overlap(stitches(overlap)).check() {
                        Ok(verdict) => {
                            assert!(!verdict.to_string().is_empty());
                            done += 1;
                        }
                        Err(why) => {
                            assert!(join != Join::HangBack && overlap > 0, "{why}");
                            refused += 1;
                        }
                    }
                }
            }
        }
    }
    assert!(done > 1_000 && refused > 1_000, "{done} done, {refused} refused");
    let far = SeamEase::Near { counts: u32::MAX, per_mille: u32::MAX };
    assert!(Tolerance::new(u32::MAX, far).is_err());
}

#[test]
fn pairings_and_passes() {
    for (a, b) in pairs(counts()) {
        let fits = a > 0 && b > 0 && a.max(b) <= PLACES && a.max(b) <= 2 * a.min(b);
        let pairing = Pairing::new(stitches(a), rows(b));
        assert_eq!(pairing.is_ok(), fits, "{a} {b}");
        let passes = Passes::pair(rows(a), rows(b));
        assert_eq!(passes.is_ok(), fits, "{a} {b}");
        if let (Ok(pairing), Ok((first, second))) = (pairing, passes) {
            assert!(!pairing.words("edge").is_empty());
            assert!(first.count() - second.count() <= 1);
        }
    }
}

#[test]
fn placements_and_groups() {
    for (places, count) in pairs(counts()) {
        for spacing in PickUpSpacing::ALL {
            let fits = (1..=PLACES).contains(&places) && (1..=2 * places).contains(&count);
            let placed = Placement::new(rows(places), stitches(count), spacing);
            assert_eq!(placed.is_ok(), fits, "{count} of {places}");
            if let Ok(placed) = placed {
                let told: u64 = placed.groups().iter().map(|group| group.stitches()).sum();
                assert_eq!(told, u64::from(count));
                assert!(placed.drift().is_ok());
            }
        }
    }
    for n in NUMBERS {
        let many = PickUpGroup::pick(Stitches::MAX).extra(Stitches::MAX).miss(n).times(n);
        assert!(many.stitches() >= u64::from(n) && many.places() >= u64::from(n));
        assert_eq!(say(&[many, many, many]).is_empty(), n == 0);
    }
}

#[test]
fn rates_at_their_ends() {
    for (pick, of) in pairs(NUMBERS.into_iter()) {
        let fits = |n| (1..=10_000).contains(&n);
        assert_eq!(Rate::new(pick, of).is_ok(), fits(pick) && fits(of));
    }
    let ratios = [(1, i64::MAX), (i64::MAX, 1), (1, 10_000), (10_000, 1), (-1, 2), (9_999, 10_000)];
    for (n, d) in ratios {
        let ratio = Exact::new(n, d).unwrap();
        for most in NUMBERS {
            for found in rates(ratio, most).into_iter().flatten() {
                let _ = found.error_over(Rows::MAX);
            }
            let _ = Rate::simplest(ratio, most, Rows::MAX, Exact::ZERO);
            let _ = Rate::nearest(ratio, most);
        }
    }
    for (a, b) in pairs(gauges().into_iter()) {
        let _ = pick_up_ratio(a, b);
    }
}

#[test]
fn lines_and_bands() {
    let mut done = 0;
    for (fabric, band) in pairs(gauges().into_iter()) {
        for n in counts().filter(|&n| n > 0) {
            let (Ok(side), Ok(top)) = (
                Edge::selvedge("side", rows(n), fabric),
                Edge::bound_off("top", stitches(n), fabric),
            ) else {
                continue;
            };
            let rate = Rate::new(10_000, 1).unwrap();
            let line = PickUpLine::new(band).along(side.clone()).corner().along_at(top, rate);
            for count in [0, 1, 2, n, bounds::COUNT] {
                let alone = PickUpLine::new(band).along(side.clone());
                done += u32::from(alone.place(stitches(count), PickUpSpacing::Half).is_ok());
                let _ = line.place(stitches(count), PickUpSpacing::Half);
                let _ = line.clone().mirrored().place(stitches(count), PickUpSpacing::Round);
            }
            let _ = FrontBands::new(&line, &line, Repeat::any(), Round::Floor);
            for shorter in NUMBERS {
                let _ = knitted_band(&side, band, shorter, Repeat::even(), Round::Ceil);
            }
        }
    }
    assert!(done > 20, "{done}");
    let slant = Edge::read("slant", "1 rows 1 st x1000", gauge()).unwrap();
    let line = PickUpLine::new(gauge()).along(slant);
    assert!(line.place(Stitches::MAX, PickUpSpacing::Half).is_err());
}

#[test]
fn buttonholes() {
    let (mut done, mut refused) = (0, 0);
    for (total, width) in pairs(counts()) {
        for holes in NUMBERS {
            let Ok(band) = Buttonholes::new(stitches(total), holes, stitches(width)) else {
                refused += 1;
                continue;
            };
            for (first, last) in pairs([0, 1, bounds::COUNT].into_iter()) {
                for leftover in Leftover::ALL {
                    let margins = Gaps::Margins { first: stitches(first), last: stitches(last) };
                    for gaps in [margins, Gaps::Equal] {
                        let Ok(placed) = band.place(gaps, leftover) else { continue };
                        assert_eq!(placed.starts().count(), holes as usize);
                        done += 1;
                    }
                }
            }
        }
        let _ = Holes::start_at_marker(stitches(total), stitches(width));
        let _ = Holes::between(vec![stitches(total); 3], stitches(width));
    }
    assert!(done > 100 && refused > 100, "{done} done, {refused} refused");
}
