package scene

import (
	"cmp"

	"seamrail/motion/camera/light"
)

// Bounds are what parts a good picture from a poor one.
type Bounds struct {
	SharpSmear   float64 // px that no eye sees
	SoftSmear    float64 // px up to which smear looks natural
	CalmSpeed    float64 // frame widths per on-screen second
	BriskSpeed   float64 // frame widths per on-screen second
	LeastAngle   float64 // degrees of shutter
	MostAngle    float64 // degrees of shutter
	StepPixels   float64 // px that one step may move the picture
	StepsExposed float64 // steps in an exposure that melt into one
	Backlash     float64 // px
	HandLate     float64 // s that a hand on the focus ring may be late or early
	HandBits     float64 // bits a second of a hand that stops at a mark
	RingSpeed    float64 // degrees/s that a hand turns a ring evenly
	SharpSpot    float64 // px across that count as sharp, where no circle of confusion is given
	Airy         float64 // px across the Airy disc
	Meter        float64 // lx s, C of the exposure equation
	Stops        float64 // stops of light that may be missing
	Mired        float64 // shift between lamps
	Flicker      float64 // depth, 0..1
	Black        float64 // stops under full exposure at which nothing is seen
	Clearance    float64 // mm between lens and product
	HoleMargin   float64 // mm all round between lens and hole
	SeamJump     float64 // px
	SeamKick     float64 // px a captured frame
}

// BoundInfo says where a bound comes from.
type BoundInfo struct {
	Key    string // as the shot names it
	Unit   string
	Source string
	At     func(*Bounds) *float64
}

const practice = "common practice"

const (
	black     = "black"
	handLate  = "hand-late"
	handBits  = "hand-bits"
	ringSpeed = "ring-speed"
)

// OfFades tells whether a bound counts only where the level of a lamp changes, and
// OfPulls whether only where a hand pulls focus.
func (i BoundInfo) OfFades() bool { return i.Key == black }
func (i BoundInfo) OfPulls() bool {
	return i.Key == handLate || i.Key == handBits || i.Key == ringSpeed
}

// BoundList names every bound with its unit and source, in the order of the
// report.
func BoundList() []BoundInfo {
	return []BoundInfo{
		{"sharp-smear", "px", "a pixel holds no more", func(b *Bounds) *float64 { return &b.SharpSmear }},
		{"soft-smear", "px", practice, func(b *Bounds) *float64 { return &b.SoftSmear }},
		{"calm-speed", "widths/s", practice + ": seven seconds for a thing to cross the picture", func(b *Bounds) *float64 { return &b.CalmSpeed }},
		{"brisk-speed", "widths/s", practice + ": three seconds for a thing to cross the picture", func(b *Bounds) *float64 { return &b.BriskSpeed }},
		{"least-angle", "deg", practice + ", about the half circle", func(b *Bounds) *float64 { return &b.LeastAngle }},
		{"most-angle", "deg", practice + ", about the half circle", func(b *Bounds) *float64 { return &b.MostAngle }},
		{"step-pixels", "px", "below half a pixel no pixel need change", func(b *Bounds) *float64 { return &b.StepPixels }},
		{"steps-exposed", "steps", "with one step in each exposure every frame moves on", func(b *Bounds) *float64 { return &b.StepsExposed }},
		{"backlash", "px", "a pixel holds no more", func(b *Bounds) *float64 { return &b.Backlash }},
		{"sharp-spot", "px", practice + ": two pixels across", func(b *Bounds) *float64 { return &b.SharpSpot }},
		{handLate, "s", practice + ": a hand that is counted to", func(b *Bounds) *float64 { return &b.HandLate }},
		{handBits, "bits/s", "Fitts 1954, DOI 10.1037/h0055392", func(b *Bounds) *float64 { return &b.HandBits }},
		{ringSpeed, "deg/s", practice + ": half a turn in a second, which the wrist has without letting go", func(b *Bounds) *float64 { return &b.RingSpeed }},
		{"airy", "px", practice + ": three pixels across", func(b *Bounds) *float64 { return &b.Airy }},
		{"meter", "lx s", "ISO 2720:1974, flat receptor", func(b *Bounds) *float64 { return &b.Meter }},
		{"stops", "stops", practice + ": a third of a stop", func(b *Bounds) *float64 { return &b.Stops }},
		{"mired", "mired", practice + ": ten are hardly seen", func(b *Bounds) *float64 { return &b.Mired }},
		{"flicker", "share", practice + ": a hundredth is hardly seen", func(b *Bounds) *float64 { return &b.Flicker }},
		{black, "stops", "a white face is then 3 of 255 by IEC 61966-2-1", func(b *Bounds) *float64 { return &b.Black }},
		{"clearance", "mm", practice + ": a finger's breadth", func(b *Bounds) *float64 { return &b.Clearance }},
		{"hole-margin", "mm", practice + ": what a stand is set up to by hand", func(b *Bounds) *float64 { return &b.HoleMargin }},
		{"seam-jump", "px", "below half a pixel no pixel need change", func(b *Bounds) *float64 { return &b.SeamJump }},
		{"seam-kick", "px/frame", "below half a pixel no pixel need change", func(b *Bounds) *float64 { return &b.SeamKick }},
	}
}

// DefaultBounds returns the bounds where the shot names none.
func DefaultBounds() Bounds {
	return Bounds{
		SharpSmear: 1, SoftSmear: 8, CalmSpeed: 1.0 / 7, BriskSpeed: 1.0 / 3, LeastAngle: 90, MostAngle: 270,
		StepPixels: 0.5, StepsExposed: 1, Backlash: 1, HandLate: 0.1, HandBits: 10, RingSpeed: 180, SharpSpot: 2, Airy: 3, Meter: light.Incident,
		Stops: 1.0 / 3, Mired: 10, Flicker: 0.01, Black: 10, Clearance: 15, HoleMargin: 3, SeamJump: 0.5, SeamKick: 0.5,
	}
}

// Filled returns b with the defaults where it is 0.
func (b Bounds) Filled() Bounds {
	defaults := DefaultBounds()
	for _, i := range BoundList() {
		v := i.At(&b)
		*v = cmp.Or(*v, *i.At(&defaults))
	}
	return b
}
