use super::stitches;
use loopwright::seams::{Placement, Spacing, say};

#[test]
fn spacings_differ_at_the_ends() {
    let words = |spacing| say(&Placement::new(88, stitches(71), spacing).unwrap().groups());
    // forum.knittinghelp.com/t/124191: (pick 4, skip 1) x 17, then 3.
    assert_eq!(words(Spacing::Blocks), "(pick up 4, miss 1) 17 times, then pick up 3");
    for spacing in [Spacing::Half, Spacing::Full, Spacing::Blocks, Spacing::Round] {
        let placement = Placement::new(88, stitches(71), spacing).unwrap();
        assert_eq!(placement.each().map(u32::from).sum::<u32>(), 71, "{spacing:?}");
        assert_eq!(placement.each().count(), 88, "{spacing:?}");
    }
}
