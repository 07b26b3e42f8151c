//! A picture made smaller before it is kept: the office needs to see, not to print. Drawing it anew also leaves
//! behind what the camera wrote into it (place, time, owner).
//!
//! The browser unpacks the file while it draws, so that at most one copy in full size is ever held.

use wasm_bindgen::prelude::*;
use wasm_bindgen_futures::JsFuture;
use web_sys::{Blob, CanvasRenderingContext2d, HtmlCanvasElement, HtmlImageElement, Url};

use crate::guide::photos::MOST_PIXELS;

/// Longest side in pixels.
const LONGEST: f64 = 1_600.0;
/// Quality of the JPEG, 0 to 1.
const QUALITY: f64 = 0.85;

/// Why there is no smaller picture.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum NoPicture {
    /// Not a picture of any kind that is known here.
    Other,
    /// HEIC or HEIF, which this browser cannot read.
    Heic,
    /// A picture by its first bytes, and damaged.
    Broken,
    /// More pixels than a phone can unpack, in millions.
    TooLarge(u64),
    /// The browser has no room or no way to draw it smaller.
    NoCanvas,
}

/// The picture as a JPEG of at most 1600 pixels a side.
pub(crate) async fn smaller(blob: &Blob) -> Result<Vec<u8>, NoPicture> {
    let url = Url::create_object_url_with_blob(blob).map_err(|_| NoPicture::NoCanvas)?;
    let drawn = draw(&url).await;
    let _ = Url::revoke_object_url(&url);
    match drawn {
        Ok(canvas) => {
            let made = encode(&canvas).await;
            // Gives the pixels back at once; some browsers hold on to them otherwise.
            canvas.set_width(0);
            made.ok_or(NoPicture::NoCanvas)
        }
        Err(NoPicture::Broken) => Err(unreadable(&head(blob).await)),
        Err(why) => Err(why),
    }
}

/// The picture on a canvas of the size in which it is kept.
async fn draw(url: &str) -> Result<HtmlCanvasElement, NoPicture> {
    let image = HtmlImageElement::new().map_err(|_| NoPicture::NoCanvas)?;
    let loaded = js_sys::Promise::new(&mut |done, failed| {
        image.set_onload(Some(&done));
        image.set_onerror(Some(&failed));
    });
    image.set_src(url);
    JsFuture::from(loaded).await.map_err(|_| NoPicture::Broken)?;
    let (width, height) = (image.natural_width(), image.natural_height());
    let all = u64::from(width) * u64::from(height);
    if all == 0 {
        return Err(NoPicture::Broken);
    }
    if all > MOST_PIXELS {
        return Err(NoPicture::TooLarge(all / 1_000_000));
    }
    let shrink = (LONGEST / f64::from(width.max(height))).min(1.0);
    let (width, height) = (f64::from(width) * shrink, f64::from(height) * shrink);
    let canvas = canvas(pixels(width), pixels(height)).ok_or(NoPicture::NoCanvas)?;
    let context = canvas.get_context("2d").ok().flatten().ok_or(NoPicture::NoCanvas)?;
    let context: CanvasRenderingContext2d = context.unchecked_into();
    let _ = js_sys::Reflect::set(&context, &"imageSmoothingQuality".into(), &"high".into());
    let drawn = context.draw_image_with_html_image_element_and_dw_and_dh(&image, 0.0, 0.0, width, height);
    drawn.map(|()| canvas).map_err(|_| NoPicture::Broken)
}

fn canvas(width: u32, height: u32) -> Option<HtmlCanvasElement> {
    let made = web_sys::window()?.document()?.create_element("canvas").ok()?;
    let canvas: HtmlCanvasElement = made.unchecked_into();
    canvas.set_width(width);
    canvas.set_height(height);
    Some(canvas)
}

async fn encode(canvas: &HtmlCanvasElement) -> Option<Vec<u8>> {
    let made = JsFuture::from(js_sys::Promise::new(&mut |done, failed| {
        if canvas.to_blob_with_type_and_encoder_options(&done, "image/jpeg", &QUALITY.into()).is_err() {
            let _ = failed.call0(&JsValue::UNDEFINED);
        }
    }));
    let blob: Blob = made.await.ok()?.dyn_into().ok()?;
    let bytes = bytes(&blob).await?;
    // A browser that cannot write JPEG gives a PNG instead.
    bytes.starts_with(b"\xff\xd8\xff").then_some(bytes)
}

async fn bytes(blob: &Blob) -> Option<Vec<u8>> {
    let buffer = JsFuture::from(blob.array_buffer()).await.ok()?;
    Some(js_sys::Uint8Array::new(&buffer).to_vec())
}

/// The first bytes of a file.
async fn head(blob: &Blob) -> Vec<u8> {
    match blob.slice_with_i32_and_i32(0, 32) {
        Ok(start) => bytes(&start).await.unwrap_or_default(),
        Err(_) => Vec::new(),
    }
}

/// What a file is that the browser could not read, by its first bytes: JPEG (ISO/IEC 10918-1), PNG (its
/// specification, 5.2), WebP (RFC 9649), GIF (its specification), HEIF (ISO/IEC 14496-12, box `ftyp` with the brands
/// of ISO/IEC 23008-12).
fn unreadable(head: &[u8]) -> NoPicture {
    let brand = |names: &[&[u8]]| {
        head.get(4..8) == Some(b"ftyp") && head.get(8..12).is_some_and(|brand| names.contains(&brand))
    };
    let starts: [&[u8]; 4] = [b"\xff\xd8\xff", b"\x89PNG\r\n\x1a\n", b"RIFF", b"GIF8"];
    if brand(&[b"heic", b"heix", b"heim", b"heis", b"hevc", b"mif1", b"msf1"]) {
        NoPicture::Heic
    } else if brand(&[b"avif", b"avis"]) || starts.iter().any(|start| head.starts_with(start)) {
        NoPicture::Broken
    } else {
        NoPicture::Other
    }
}

#[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)] // at most 1600
fn pixels(side: f64) -> u32 {
    side.round().max(1.0) as u32
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_cannot_be_read_is_told_by_its_first_bytes() {
        // The head of a HEIC file as phones write it: box length, `ftyp`, brand `heic` (ISO/IEC 23008-12).
        assert_eq!(unreadable(b"\x00\x00\x00\x18ftypheic\x00\x00\x00\x00"), NoPicture::Heic);
        assert_eq!(unreadable(b"\xff\xd8\xff\xe1\x00\x10Exif"), NoPicture::Broken);
        assert_eq!(unreadable(b"\x89PNG\r\n\x1a\n"), NoPicture::Broken);
        assert_eq!(unreadable(b"%PDF-1.7"), NoPicture::Other);
        assert_eq!(unreadable(b""), NoPicture::Other);
        assert_eq!(unreadable(b"\x00\x00\x00\x18ftypmp42"), NoPicture::Other, "a film");
    }
}
