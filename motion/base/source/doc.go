// Package source reads a TOML document into structs of text, and keeps the
// line and column of every value, so that whoever reads the text can say where
// it went wrong.
package source
