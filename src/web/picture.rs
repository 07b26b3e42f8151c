//! A picture made smaller before it is kept: the office needs to see, not to print. Drawing it anew
//! also leaves behind what the camera wrote into it (place, time, owner).

use wasm_bindgen::prelude::*;
use wasm_bindgen_futures::JsFuture;
use web_sys::{Blob, CanvasRenderingContext2d, HtmlCanvasElement, ImageBitmap};

/// Longest side in pixels.
const LONGEST: f64 = 1_600.0;
/// Quality of the JPEG, 0 to 1.
const QUALITY: f64 = 0.85;

/// The picture as a JPEG of at most 1600 pixels a side; `None` where the browser cannot do that, and
/// the picture is then kept as it came.
pub(crate) async fn smaller(blob: &Blob) -> Option<Vec<u8>> {
    let window = web_sys::window()?;
    let bitmap = JsFuture::from(window.create_image_bitmap_with_blob(blob).ok()?).await.ok()?;
    let bitmap: ImageBitmap = bitmap.dyn_into().ok()?;
    let (width, height) = (f64::from(bitmap.width()), f64::from(bitmap.height()));
    let shrink = (LONGEST / width.max(height)).min(1.0);
    let (width, height) = ((width * shrink).round(), (height * shrink).round());
    let canvas: HtmlCanvasElement = window.document()?.create_element("canvas").ok()?.dyn_into().ok()?;
    canvas.set_width(pixels(width));
    canvas.set_height(pixels(height));
    let context: CanvasRenderingContext2d = canvas.get_context("2d").ok()??.dyn_into().ok()?;
    context.draw_image_with_image_bitmap_and_dw_and_dh(&bitmap, 0.0, 0.0, width, height).ok()?;
    bitmap.close();
    let made = JsFuture::from(js_sys::Promise::new(&mut |done, failed| {
        let told = Closure::once_into_js(move |blob: JsValue| {
            let _ = done.call1(&JsValue::UNDEFINED, &blob);
        });
        if canvas.to_blob_with_type_and_encoder_options(told.unchecked_ref(), "image/jpeg", &QUALITY.into()).is_err() {
            let _ = failed.call0(&JsValue::UNDEFINED);
        }
    }));
    let blob: Blob = made.await.ok()?.dyn_into().ok()?;
    let buffer = JsFuture::from(blob.array_buffer()).await.ok()?;
    Some(js_sys::Uint8Array::new(&buffer).to_vec())
}

#[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)] // at most 1600
fn pixels(side: f64) -> u32 {
    side.max(1.0) as u32
}
