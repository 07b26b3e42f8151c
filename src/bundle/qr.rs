//! A text as a QR code (ISO/IEC 18004), drawn as one SVG path; and the text of a device id.

use crate::record::{DeviceId, Digest};
use qrcodegen::{DataTooLong, QrCode, QrCodeEcc};

/// The light margin that a reader needs, in modules (ISO/IEC 18004: four).
pub const QUIET_MODULES: usize = 4;

/// What stands before the device id in the code, so that a reader knows what it holds.
const DEVICE_PREFIX: &str = "marrowbook-device-1:";

/// A QR code: rows of modules, `true` is dark, without the light margin.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct QrMatrix {
    /// Rows from the top, each from the left.
    pub rows: Vec<Vec<bool>>,
}

impl QrMatrix {
    /// The code of a text, with the error correction level M (about 15 % may be smudged).
    ///
    /// # Errors
    /// The text is longer than a QR code can hold (about 2,300 bytes).
    pub fn of_text(text: &str) -> Result<Self, DataTooLong> {
        let code = QrCode::encode_text(text, QrCodeEcc::Medium)?;
        let span = 0..code.size();
        let rows = span.clone().map(|y| span.clone().map(|x| code.get_module(x, y)).collect()).collect();
        Ok(Self { rows })
    }

    /// The side of a square SVG view box that holds the code and its light margin, in modules.
    pub fn view_side(&self) -> usize {
        self.rows.len() + 2 * QUIET_MODULES
    }

    /// The dark modules as the `d` attribute of one SVG path, one unit a module.
    pub fn svg_path(&self) -> String {
        let mut path = String::new();
        for (y, row) in self.rows.iter().enumerate() {
            let mut x = 0;
            for run in row.chunk_by(|a, b| a == b) {
                let width = run.len();
                if run.first() == Some(&true) {
                    let (left, top) = (x + QUIET_MODULES, y + QUIET_MODULES);
                    path.extend(["M", &left.to_string(), " ", &top.to_string()]);
                    path.extend(["h", &width.to_string(), "v1h-", &width.to_string(), "z"]);
                }
                x += width;
            }
        }
        path
    }
}

/// The text inside a device's QR code.
pub fn device_text(id: &DeviceId) -> String {
    format!("{DEVICE_PREFIX}{id}")
}

/// The device id in a text read from a QR code, if it is one.
pub fn read_device_text(text: &str) -> Option<DeviceId> {
    Digest::parse(text.trim().strip_prefix(DEVICE_PREFIX)?).ok().map(DeviceId)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::bundle::vectors::published_key;

    // ISO/IEC 18004: three finder patterns of 7 x 7 modules in the corners.
    #[test]
    fn finder_patterns_stand_in_three_corners() {
        let matrix = QrMatrix::of_text(&device_text(&published_key().public().id())).unwrap();
        let side = matrix.rows.len();
        assert!(side % 4 == 1 && matrix.rows.iter().all(|row| row.len() == side));
        for (top, left) in [(0, 0), (0, side - 7), (side - 7, 0)] {
            for y in 0..7_usize {
                for x in 0..7_usize {
                    let ring = y.abs_diff(3).max(x.abs_diff(3));
                    assert_eq!(matrix.rows[top + y][left + x], ring != 2, "{y} {x}");
                }
            }
        }
    }

    #[test]
    fn the_path_covers_exactly_the_dark_modules() {
        let matrix = QrMatrix::of_text("marrow").unwrap();
        let mut drawn = vec![vec![false; matrix.view_side()]; matrix.view_side()];
        for piece in matrix.svg_path().split('M').skip(1) {
            let numbers: Vec<usize> =
                piece.split(|c: char| !c.is_ascii_digit()).filter_map(|part| part.parse().ok()).collect();
            let [x, y, width, ..] = numbers[..] else { panic!("{piece}") };
            for cell in &mut drawn[y][x..x + width] {
                assert!(!*cell);
                *cell = true;
            }
        }
        let inside: Vec<Vec<bool>> = drawn[QUIET_MODULES..matrix.view_side() - QUIET_MODULES]
            .iter()
            .map(|row| row[QUIET_MODULES..matrix.view_side() - QUIET_MODULES].to_vec())
            .collect();
        assert_eq!(inside, matrix.rows);
    }

    #[test]
    fn the_text_inside_is_read_back() {
        let id = published_key().public().id();
        assert_eq!(read_device_text(&device_text(&id)), Some(id));
        assert_eq!(read_device_text(&id.to_string()), None);
    }
}
