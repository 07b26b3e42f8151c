//! From a folded carcass, through the science, to statements.
