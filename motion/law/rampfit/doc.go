// Package rampfit finds by which law a rig goes that has a ramp of its own, from where it
// was seen at some times of one way: the law of the catalogue that comes nearest, with its
// ramp and how sure that is; and whether any comes near enough.
package rampfit
