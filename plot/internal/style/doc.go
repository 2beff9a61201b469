// Package style is the paper, ink, type, ticks and panels that every figure of
// this program shares, so that they all read the same way.
//
// Lengths are points (1/72 inch) with y growing upwards, as in gonum's vg.
package style
