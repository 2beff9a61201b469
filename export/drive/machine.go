package drive

import "time"

// machine is what the engine needs of a kind of controller. Methods that
// return an error wait in the engine's World until they are done, and return a
// *Failure, errStopped or nil.
type machine interface {
	// greet learns that the controller is there and is the one described.
	greet() error
	// check compares its settings with the rig.
	check() error
	// locked tells whether it is in an alarm that must be cleared.
	locked() bool
	unlock() error
	// home finds the switches of the axes of the plan that have one.
	home() error
	// homes tells whether it can find the switch of an axis of the plan.
	homes(axis int) bool
	// place makes it count from here: each axis of the plan stands at.
	place(at []float64) error
	// glide moves one axis gently to a place, or by a distance where position
	// is unknown, and rests.
	glide(axis int, to float64, relative bool) error
	// position returns where the axes of the plan stand by the last report, while
	// that can be told; fresh waits for one that is asked for now.
	position() ([]float64, bool)
	fresh() error

	// load makes ready a pass, without a move; feed sends what there is room for; done tells
	// whether all of it has been carried out.
	load(p *pass) error
	// lead is how long before the motion the first feed must be.
	lead() time.Duration
	feed(p *pass) error
	done(p *pass) bool
	// finish ends the pass after the round in hand.
	finish(p *pass)
	// last returns where the axes stand after the pass, or as far as it went,
	// and whether that can be relied on.
	last(p *pass) ([]float64, bool)

	// slow asks for a gentle stop, at once; rest waits for it; resume goes on
	// after it; halt, at rest, makes the controller forget what it holds, and
	// tells whether position is still known. crash stops without care.
	slow()
	rest() error
	resume(p *pass)
	halt() (known bool)
	crash()

	// heard takes bytes from the wire, flushed is told that the wire has taken
	// some, tick does what is due, due is when something will be.
	heard(b []byte)
	flushed()
	tick()
	due() time.Time
}
