package host

import (
	"time"

	"seamrail/export/drive"
	"seamrail/export/drive/virtual"
)

// Fast is the world of a virtual rig whose time, and with it the engine's, goes
// as fast as it can be worked out. It begins now.
type Fast struct {
	world         *virtual.World
	ahead         time.Duration // of the time of day over the world's
	hurried, asks <-chan drive.Request
}

// NewFast returns the world of a rig that has just been powered.
func NewFast(rig *virtual.Rig, hurried, asks <-chan drive.Request) *Fast {
	w := virtual.NewWorld(rig)
	return &Fast{world: w, ahead: time.Since(w.Now()), hurried: hurried, asks: asks}
}

// Now is the rig's time of day.
func (f *Fast) Now() time.Time { return f.world.Now().Add(f.ahead) }

// Write puts bytes on the wire of the rig, now.
func (f *Fast) Write(p []byte) (int, error) { return f.world.Write(p) }

// Wait returns the first thing that happens, or Nothing at until. Requests are
// there already or not at all: nobody is as quick as this rig.
func (f *Fast) Wait(until time.Time) drive.Event {
	for _, from := range []<-chan drive.Request{f.hurried, f.asks} {
		select {
		case r := <-from:
			return asked(r)
		default:
		}
	}
	return f.world.Wait(until.Add(-f.ahead))
}

// Close does nothing: there is nothing to give back.
func (f *Fast) Close() error { return nil }
