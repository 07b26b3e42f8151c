//! A frame as a code, and the code as a picture.

use qrcodegen::{QrCode, QrCodeEcc, QrSegment, Version};

/// Light modules around a code (ISO/IEC 18004: four).
pub const QUIET: usize = 4;

/// Rows of modules, `true` is dark, without the light margin: bytes, level L, and always version 12 for a frame, so
/// that the code on the screen never changes its size. `None` for what does not fit.
pub fn modules(frame: &[u8]) -> Option<Vec<Vec<bool>>> {
    let segment = QrSegment::make_bytes(frame);
    let from = Version::new(12);
    QrCode::encode_segments_advanced(&[segment], QrCodeEcc::Low, from, from, None, false).ok().map(|code| rows(&code))
}

/// The same of a text, at level M and as small as it fits; `None` for one that is longer than a code holds.
pub fn text_modules(text: &str) -> Option<Vec<Vec<bool>>> {
    QrCode::encode_text(text, QrCodeEcc::Medium).ok().map(|code| rows(&code))
}

fn rows(code: &QrCode) -> Vec<Vec<bool>> {
    let span = 0..code.size();
    span.clone().map(|y| span.clone().map(|x| code.get_module(x, y)).collect()).collect()
}

/// A picture of a frame: its side in pixels and one byte of luma a pixel, `scale` pixels a module.
pub fn picture(frame: &[u8], scale: usize) -> Option<(usize, Vec<u8>)> {
    let rows = modules(frame)?;
    let side = (rows.len() + 2 * QUIET) * scale;
    let dark = |x: usize, y: usize| {
        let place = |at: usize| (at / scale).checked_sub(QUIET);
        let row = place(y).and_then(|y| rows.get(y));
        row.zip(place(x)).and_then(|(row, x)| row.get(x)).copied().unwrap_or(false)
    };
    let luma = (0..side).flat_map(|y| (0..side).map(move |x| (x, y))).map(|(x, y)| if dark(x, y) { 0 } else { 255 });
    Some((side, luma.collect()))
}

#[cfg(test)]
mod tests {
    use super::super::frame::FRAME_BYTES;
    use super::super::{Gather, Spread, Taken, read};
    use super::*;

    #[test]
    fn a_frame_fills_version_twelve_and_no_more() {
        assert_eq!(modules(&[0; FRAME_BYTES]).unwrap().len(), 65);
        assert_eq!(modules(&[0; 367]).unwrap().len(), 65);
        assert!(modules(&[0; 368]).is_none(), "ISO/IEC 18004: 367 bytes in version 12-L");
    }

    #[test]
    fn what_is_painted_is_read_again() {
        let file: Vec<u8> = (0..2_000_u32).flat_map(u32::to_le_bytes).collect();
        let spread = Spread::new(file.clone()).unwrap();
        let mut gather = Gather::new();
        for number in 40.. {
            let (side, luma) = picture(&spread.frame(number), 3).unwrap();
            let codes = read::codes(side, side, &luma);
            assert_eq!(codes.len(), 1);
            if let Taken::Whole(bytes) = gather.take(&codes[0]).unwrap() {
                return assert_eq!(bytes, file);
            }
        }
    }

    /// No picture ends the program: noise, stripes, empty and ill-stated ones.
    #[test]
    fn pictures_without_a_code_give_nothing() {
        assert!(read::codes(10, 10, &[0; 99]).is_empty());
        assert!(read::codes(0, 0, &[]).is_empty());
        let mut state = 1_u32;
        for round in 0..60_usize {
            let (width, height) = (40 + round * 5, 300 - round * 3);
            let luma: Vec<u8> = (0..width * height)
                .map(|at| {
                    state = state.wrapping_mul(1_664_525).wrapping_add(1_013_904_223);
                    match round % 3 {
                        0 => state.to_be_bytes()[0],
                        1 => {
                            if (at / (1 + round % 7)).is_multiple_of(2) {
                                0
                            } else {
                                255
                            }
                        }
                        _ => u8::try_from(at % 256).unwrap(),
                    }
                })
                .collect();
            assert!(read::codes(width, height, &luma).is_empty());
        }
    }
}
