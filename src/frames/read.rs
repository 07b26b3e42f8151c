//! From a picture to what its codes hold.

use quircs::Quirc;

/// The most that one side of a picture may have, in pixels. What is shown is found in far less.
pub const MOST_SIDE: usize = 2048;

/// Luma of a picture from its red, green, blue and opacity, four bytes a pixel (ITU-R BT.601 weights, in 256ths).
#[allow(clippy::cast_possible_truncation)] // the weights sum to 256
pub fn luma(rgba: &[u8]) -> Vec<u8> {
    let one = |pixel: &[u8; 4]| {
        let [r, g, b, _] = pixel.map(u32::from);
        ((77 * r + 150 * g + 29 * b) >> 8) as u8
    };
    rgba.as_chunks::<4>().0.iter().map(one).collect()
}

/// What the QR codes in a picture hold, byte by byte. One byte of luma a pixel, rows from the top.
/// Empty where nothing can be read, or where the picture has not the stated size.
pub fn codes(width: usize, height: usize, luma: &[u8]) -> Vec<Vec<u8>> {
    let sides = 1..=MOST_SIDE;
    if !sides.contains(&width) || !sides.contains(&height) || luma.len() != width * height {
        return Vec::new();
    }
    let mut finder = Quirc::new();
    let found = finder.identify(width, height, luma);
    found.filter_map(|code| code.ok()?.decode().ok().map(|data| data.payload)).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    /// ITU-R BT.601: 0.299 of red, 0.587 of green, 0.114 of blue. The weights are 256ths, and the rest is cut off.
    #[test]
    fn luma_weighs_colours_as_a_television_does() {
        let of = |r, g, b| luma(&[r, g, b, 7])[0];
        assert_eq!((of(0, 0, 0), of(255, 255, 255)), (0, 255));
        for (pixel, exact) in
            [([255, 0, 0], 76.245), ([0, 255, 0], 149.685), ([0, 0, 255], 29.07), ([10, 200, 90], 130.65)]
        {
            let [r, g, b] = pixel;
            assert!((f64::from(of(r, g, b)) - exact).abs() <= 1.5, "{pixel:?}");
        }
        assert_eq!(luma(&[1, 1, 1, 255, 2, 2, 2, 255, 3]), [1, 2], "a pixel that is not whole is none");
    }
}
