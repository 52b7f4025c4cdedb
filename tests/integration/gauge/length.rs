use loopwright::gauge::Length;

#[test]
fn forms_of_the_same_length_are_one_length() {
    let feet: Length = "5 ft 4 in".parse().unwrap();
    for text in
        ["64 in", "5'4\"", "5 1/3 ft", "1625,6 mm", "162.56 cm", "1.6256 m", "1 7/9 yd", "64\""]
    {
        assert_eq!(text.parse::<Length>(), Ok(feet), "{text}");
    }
}
