//! Why a signed file was refused: one variant a condition, in the order of the checks.

use super::base64url::Damage;
use super::deflate::InflateError;
use super::jwk::JwkError;
use super::kind::Kind;
use super::strict::ReadError;
use std::fmt;

/// The steps of opening a signed file, in order. A refusal names the step that failed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Step {
    /// The file's size.
    Size,
    /// That it is plain text.
    Text,
    /// The three members of the envelope.
    Envelope,
    /// The protected header.
    Header,
    /// That it is the kind of file expected, in a version known here.
    Kind,
    /// The signing key.
    Key,
    /// The signature.
    Signature,
    /// What was signed.
    Payload,
    /// The chain of entries inside.
    Chain,
}

impl Step {
    /// The name of the step as in message ids and reports for programs.
    pub fn code(self) -> &'static str {
        match self {
            Self::Size => "size",
            Self::Text => "text",
            Self::Envelope => "envelope",
            Self::Header => "header",
            Self::Kind => "kind",
            Self::Key => "key",
            Self::Signature => "signature",
            Self::Payload => "content",
            Self::Chain => "chain",
        }
    }
}

impl fmt::Display for Step {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::Size => "size",
            Self::Text => "text",
            Self::Envelope => "envelope",
            Self::Header => "header",
            Self::Kind => "kind of file",
            Self::Key => "key",
            Self::Signature => "signature",
            Self::Payload => "content",
            Self::Chain => "chain of entries",
        })
    }
}

/// A part of the envelope that is base64url text.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Part {
    /// The protected header.
    Protected,
    /// The payload.
    Payload,
    /// The signature.
    Signature,
}

impl Part {
    /// The member's name in the envelope.
    pub fn name(self) -> &'static str {
        match self {
            Self::Protected => "protected",
            Self::Payload => "payload",
            Self::Signature => "signature",
        }
    }
}

impl fmt::Display for Part {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.name())
    }
}

/// Why a signed file was refused. Displays as one lower-case clause.
///
/// Everything found before the signature step is as the file claims: whoever altered it may have
/// altered that claim too.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum OpenError {
    /// Larger than any file of ours; nothing of it was read beyond the limit.
    #[error("the file is larger than {limit} bytes, the most that is read")]
    TooLarge {
        /// The limit in bytes.
        limit: usize,
    },
    /// Nothing but white space.
    #[error("the file is empty")]
    Empty,
    /// Holds bytes that are not ASCII.
    #[error("the file is not plain ASCII text (byte {at})")]
    NotText {
        /// Offset of the first such byte, from 0.
        at: usize,
    },
    /// Saved in a two-byte encoding.
    #[error("the file was saved in a two-byte text encoding")]
    TwoByteText,
    /// The file ends in the middle.
    #[error("the file ends in the middle")]
    Truncated,
    /// Not an envelope at all.
    #[error("the file is not a signed file: it {0}")]
    NotAnEnvelope(ReadError),
    /// Not an object.
    #[error("the file is not a signed file: it is JSON of another shape")]
    NotAnObject,
    /// A member of the envelope is missing.
    #[error("the envelope has no member {0}")]
    MissingMember(Part),
    /// A member of the envelope is not text.
    #[error("the envelope's member {0} is not text")]
    MemberNotText(Part),
    /// The envelope has a member that does not belong there.
    #[error("the envelope has the unknown member \"{0}\"")]
    UnknownMember(String),
    /// The envelope has a header outside the signature.
    #[error("the envelope has a header that no signature protects")]
    UnprotectedHeader,
    /// The envelope is in the general form of RFC 7515, with one signature or none.
    #[error("the envelope holds a list of signatures, where one signature belongs")]
    SignaturesList,
    /// The envelope was signed more than once.
    #[error("the file was signed {0} times; only the phone's own signature belongs in it")]
    SignedAgain(usize),
    /// A part is damaged base64url.
    #[error("the envelope's member {part} is damaged: it {damage}")]
    Base64 {
        /// Which part.
        part: Part,
        /// How.
        damage: Damage,
    },
    /// The header is not strict JSON.
    #[error("the header {0}")]
    HeaderNotJson(ReadError),
    /// The header is JSON, but not an object.
    #[error("the header is not an object")]
    HeaderNotObject,
    /// The header names an extension that must be understood (`crit`, `b64`).
    #[error("the header asks for the extension \"{0}\", which no file of ours uses")]
    Extension(&'static str),
    /// A header member is missing or not text.
    #[error("the header has no text member \"{0}\"")]
    HeaderMissing(&'static str),
    /// The header has a member that does not belong there.
    #[error("the header has the unknown member \"{0}\"")]
    HeaderUnknown(String),
    /// The header's algorithm is not Ed25519.
    #[error("the header names the algorithm \"{0}\", where only Ed25519 is taken")]
    WrongAlgorithm(String),
    /// The header's content type or packing is not the one of this kind of file.
    #[error("the header's member {member} is not the one of this kind of file")]
    WrongForm {
        /// `cty` or `zip`.
        member: &'static str,
    },
    /// A good kind of file, but not the one asked for.
    #[error("this is a {found}, not a {expected}")]
    OtherKind {
        /// What was asked for.
        expected: Kind,
        /// What the file says it is.
        found: Kind,
    },
    /// The kind asked for, in a later version.
    #[error("this {kind} is of version {version}; this program reads up to version {}", Kind::VERSION)]
    NewerVersion {
        /// The kind of file.
        kind: Kind,
        /// Its version.
        version: u32,
    },
    /// No kind of ours.
    #[error("the header names the kind \"{0}\", which is none of ours")]
    UnknownKind(String),
    /// The header's key is unusable.
    #[error("the header's key {0}")]
    BadKey(JwkError),
    /// The key's name is not its thumbprint.
    #[error("the key's name is not the thumbprint of the key")]
    KeyNameMismatch,
    /// The signature does not belong to this text and key.
    #[error("the signature does not fit: the file was changed after it was signed")]
    SignatureWrong,
    /// The payload could not be unpacked.
    #[error("the content {0}")]
    Inflate(InflateError),
    /// The payload is larger than is read.
    #[error("the content is larger than {limit} bytes, the most that is read")]
    PayloadTooLarge {
        /// The limit in bytes.
        limit: usize,
    },
    /// The payload is not canonical JSON.
    #[error("the content {0}")]
    PayloadForm(ReadError),
}

impl OpenError {
    /// The step that failed.
    pub fn step(&self) -> Step {
        match self {
            Self::TooLarge { .. } => Step::Size,
            Self::Empty | Self::NotText { .. } | Self::TwoByteText => Step::Text,
            Self::Truncated
            | Self::NotAnEnvelope(_)
            | Self::NotAnObject
            | Self::MissingMember(_)
            | Self::MemberNotText(_)
            | Self::UnknownMember(_)
            | Self::UnprotectedHeader
            | Self::SignaturesList
            | Self::SignedAgain(_) => Step::Envelope,
            Self::Base64 { part: Part::Protected, .. }
            | Self::HeaderNotJson(_)
            | Self::HeaderNotObject
            | Self::Extension(_)
            | Self::HeaderMissing(_)
            | Self::HeaderUnknown(_)
            | Self::WrongAlgorithm(_)
            | Self::WrongForm { .. } => Step::Header,
            Self::OtherKind { .. } | Self::NewerVersion { .. } | Self::UnknownKind(_) => Step::Kind,
            Self::BadKey(_) | Self::KeyNameMismatch => Step::Key,
            Self::Base64 { part: Part::Signature, .. } | Self::SignatureWrong => Step::Signature,
            Self::Base64 { part: Part::Payload, .. }
            | Self::Inflate(_)
            | Self::PayloadTooLarge { .. }
            | Self::PayloadForm(_) => Step::Payload,
        }
    }

    /// Whether a newer program may read the file.
    pub fn is_newer_version(&self) -> bool {
        matches!(self, Self::NewerVersion { .. })
    }
}
