//! A folder that the person opened in the browser (File System Access API). Chromium has it; elsewhere it is not there,
//! and a zip takes its place.

use std::collections::BTreeMap;
use std::sync::Arc;

use js_sys::{AsyncIterator, Object, Promise, Reflect, Uint8Array};
use wasm_bindgen::prelude::*;
use wasm_bindgen_futures::JsFuture;

use super::{PlatformError, part, window};
use crate::office::archive::FOLDERS;

#[wasm_bindgen]
extern "C" {
    /// A folder.
    #[derive(Clone, Debug)]
    pub type Folder;
    #[wasm_bindgen(method, getter)]
    fn name(this: &Folder) -> String;
    #[wasm_bindgen(method, catch)]
    fn values(this: &Folder) -> Result<AsyncIterator, JsValue>;
    #[wasm_bindgen(method, catch, js_name = getDirectoryHandle)]
    fn folder(this: &Folder, name: &str, options: &Object) -> Result<Promise, JsValue>;
    #[wasm_bindgen(method, catch, js_name = getFileHandle)]
    fn file(this: &Folder, name: &str, options: &Object) -> Result<Promise, JsValue>;
    #[wasm_bindgen(method, catch, js_name = removeEntry)]
    fn remove_entry(this: &Folder, name: &str) -> Result<Promise, JsValue>;

    #[wasm_bindgen(extends = Object)]
    type Handle;
    #[wasm_bindgen(method, getter)]
    fn kind(this: &Handle) -> String;
    #[wasm_bindgen(method, getter, js_name = name)]
    fn handle_name(this: &Handle) -> String;
    #[wasm_bindgen(method, catch, js_name = getFile)]
    fn get_file(this: &Handle) -> Result<Promise, JsValue>;
    #[wasm_bindgen(method, catch, js_name = createWritable)]
    fn create_writable(this: &Handle) -> Result<Promise, JsValue>;

    type Writable;
    #[wasm_bindgen(method, catch)]
    fn write(this: &Writable, bytes: &Uint8Array) -> Result<Promise, JsValue>;
    #[wasm_bindgen(method, catch)]
    fn close(this: &Writable) -> Result<Promise, JsValue>;
}

fn fault(error: &JsValue) -> PlatformError {
    PlatformError::of(error)
}

async fn wait<T: JsCast>(promise: Result<Promise, JsValue>) -> Result<T, PlatformError> {
    let done = JsFuture::from(promise.map_err(|e| fault(&e))?).await.map_err(|e| fault(&e))?;
    Ok(done.unchecked_into())
}

fn options(name: &str, value: &JsValue) -> Result<Object, PlatformError> {
    let options = Object::new();
    Reflect::set(&options, &name.into(), value).map_err(|e| fault(&e))?;
    Ok(options)
}

/// Whether this browser can open a folder.
pub fn is_here() -> bool {
    window().is_ok_and(|window| part::<js_sys::Function>(&window, "showDirectoryPicker").is_ok())
}

impl Folder {
    /// Lets the person choose a folder, to be read and written. Call it from a tap.
    ///
    /// # Errors
    /// The browser has no such thing, or the person said no.
    pub async fn pick() -> Result<Self, PlatformError> {
        let window = window()?;
        let pick: js_sys::Function = part(&window, "showDirectoryPicker")?;
        let picked = pick.call1(&window, options("mode", &"readwrite".into())?.as_ref());
        wait(picked.map(JsCast::unchecked_into)).await
    }

    /// Its name, without its path: browsers do not tell that.
    pub fn title(&self) -> String {
        self.name()
    }

    /// Every file of an archive in it, by path below it; other folders are left alone.
    ///
    /// # Errors
    /// A file cannot be read. None is passed over: half an archive gives other figures.
    pub async fn read_archive(&self) -> Result<BTreeMap<String, Arc<[u8]>>, PlatformError> {
        let mut files = BTreeMap::new();
        self.read_into("", &["json", "txt"], &mut files).await?;
        for name in FOLDERS {
            let opened: Result<Self, _> = wait(self.folder(name, &Object::new())).await;
            match opened {
                Ok(inside) => inside.read_into(&format!("{name}/"), &[], &mut files).await?,
                Err(PlatformError::Failed(why)) if why.starts_with("NotFoundError") => {}
                Err(other) => return Err(other),
            }
        }
        Ok(files)
    }

    /// The files directly inside, of these endings where any are named.
    async fn read_into(
        &self,
        below: &str,
        endings: &[&str],
        files: &mut BTreeMap<String, Arc<[u8]>>,
    ) -> Result<(), PlatformError> {
        let each = self.values().map_err(|e| fault(&e))?;
        loop {
            let next: Object = wait(each.next()).await?;
            let get = |name: &str| Reflect::get(&next, &name.into()).map_err(|e| fault(&e));
            if get("done")?.is_truthy() {
                return Ok(());
            }
            let handle: Handle = get("value")?.unchecked_into();
            let name = handle.handle_name();
            let fits = endings.is_empty() || endings.iter().any(|ending| name.ends_with(&format!(".{ending}")));
            if handle.kind() == "file" && fits {
                files.insert(format!("{below}{name}"), bytes(&handle).await?.into());
            }
        }
    }

    /// A file by its path; `None` where there is none.
    ///
    /// # Errors
    /// It cannot be read.
    pub async fn read(&self, path: &str) -> Result<Option<Vec<u8>>, PlatformError> {
        let found: Result<Handle, _> = wait(self.file(path, &Object::new())).await;
        match found {
            Ok(handle) => bytes(&handle).await.map(Some),
            Err(PlatformError::Failed(why)) if why.starts_with("NotFoundError") => Ok(None),
            Err(other) => Err(other),
        }
    }

    /// Writes a file at a path of at most one folder. The browser writes aside and puts it in place when it is whole.
    ///
    /// # Errors
    /// It cannot be written: the disk is full, leave was taken back, the folder is gone.
    pub async fn write_file(&self, path: &str, content: &[u8]) -> Result<(), PlatformError> {
        let create = options("create", &JsValue::TRUE)?;
        let (inside, name) = match path.split_once('/') {
            Some((folder, name)) => (wait::<Self>(self.folder(folder, &create)).await?, name),
            None => (self.clone(), path),
        };
        let handle: Handle = wait(inside.file(name, &create)).await?;
        let writable: Writable = wait(handle.create_writable()).await?;
        wait::<JsValue>(writable.write(&Uint8Array::from(content))).await?;
        wait::<JsValue>(writable.close()).await.map(drop)
    }

    /// Removes a file at the top of the folder; one that is not there is no fault.
    ///
    /// # Errors
    /// It cannot be removed.
    pub async fn remove(&self, name: &str) -> Result<(), PlatformError> {
        match wait::<JsValue>(self.remove_entry(name)).await {
            Err(PlatformError::Failed(why)) if why.starts_with("NotFoundError") => Ok(()),
            done => done.map(drop),
        }
    }
}

async fn bytes(handle: &Handle) -> Result<Vec<u8>, PlatformError> {
    let file: web_sys::File = wait(handle.get_file()).await?;
    let buffer = JsFuture::from(file.array_buffer()).await.map_err(|e| fault(&e))?;
    Ok(Uint8Array::new(&buffer).to_vec())
}
