//! Settings: read as JSON. One that cannot be read is put aside under a name of its own before anything can be
//! saved in its place.

use serde::de::DeserializeOwned;

use crate::record::Digest;

use super::store::{Store, StoreError};

/// What was found under a name.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Setting<T> {
    /// The setting; `None` where there is none, or none that this version can read.
    pub value: Option<T>,
    /// The name under which the text that could not be read is kept.
    pub set_aside: Option<String>,
}

/// The setting of a name.
///
/// # Errors
/// Where the store is refused or lost, or full where a text has to be put aside.
pub async fn read<S: Store, T: DeserializeOwned>(store: &S, name: &str) -> Result<Setting<T>, StoreError> {
    let Some(text) = text(store, name).await? else { return Ok(Setting { value: None, set_aside: None }) };
    match serde_json::from_str(&text) {
        Ok(value) => Ok(Setting { value: Some(value), set_aside: None }),
        Err(_) => Ok(Setting { value: None, set_aside: Some(put_aside(store, name, &text).await?) }),
    }
}

async fn text<S: Store>(store: &S, name: &str) -> Result<Option<String>, StoreError> {
    match store.setting(name).await {
        Err(StoreError::Lost(_)) => {
            store.reopen().await?;
            store.setting(name).await
        }
        other => other,
    }
}

/// The name is that of the text, so that two texts never share one and one text lies there once.
async fn put_aside<S: Store>(store: &S, name: &str, text: &str) -> Result<String, StoreError> {
    let aside = format!("{name}.unread.{}", Digest::of(&[text.as_bytes()]));
    store.put_setting(&aside, text).await?;
    Ok(aside)
}

#[cfg(test)]
mod tests {
    use super::super::memory::MemoryStore;
    use super::super::test_kit::block_on;
    use super::*;

    #[test]
    fn what_cannot_be_read_is_kept_beside_what_is_saved_next() {
        let store = MemoryStore::default();
        let read = || block_on(read::<_, u32>(&store, "form")).unwrap();
        assert_eq!(read(), Setting { value: None, set_aside: None });
        block_on(store.put_setting("form", "41")).unwrap();
        assert_eq!(read(), Setting { value: Some(41), set_aside: None });
        let mut names = Vec::new();
        for broken in ["{\"cut\":", "not ours"] {
            block_on(store.put_setting("form", broken)).unwrap();
            let name = read().set_aside.unwrap();
            // Found again before anything was saved: it lies there once.
            assert_eq!(read().set_aside.as_ref(), Some(&name));
            names.push((name, broken));
        }
        block_on(store.put_setting("form", "42")).unwrap();
        assert_eq!(read().value, Some(42));
        for (name, broken) in names {
            assert_eq!(store.disk.borrow().settings[&name], broken);
        }
        assert_eq!(store.disk.borrow().settings.len(), 3);
    }

    #[test]
    fn nothing_is_called_empty_where_it_cannot_be_put_aside() {
        let store = MemoryStore::default();
        store.refused.set(true);
        assert!(matches!(block_on(read::<_, u32>(&store, "form")), Err(StoreError::Refused(_))));
    }
}
