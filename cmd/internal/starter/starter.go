// Package starter holds the pair of files that a beginner starts from: a shot
// of a lantern, and the bench rig it is filmed with.
package starter

import (
	_ "embed"
)

// What the files are called. The shot names its rig by RigName.
const (
	ShotName = "lantern.toml"
	RigName  = "bench-rail.toml"
)

//go:embed lantern.toml
var shotFile string

//go:embed bench-rail.toml
var rigFile string

// Shot returns the text of the shot file.
func Shot() []byte { return []byte(shotFile) }

// Rig returns the text of the rig file.
func Rig() []byte { return []byte(rigFile) }
