package host

import (
	"time"

	"seamrail/export/drive"
	"seamrail/export/drive/virtual"
)

// Virtual is the world of a rig made of software. It has no goroutine: the
// board is worked out whenever the engine waits.
type Virtual struct {
	rig           *virtual.Rig
	began         time.Time
	clock         func() time.Time // of a rig whose time is ours; nil = as fast as can be
	hurried, asks <-chan drive.Request
	gone          bool
}

// NewVirtual returns the world of a virtual rig whose time goes as ours does.
func NewVirtual(rig *virtual.Rig, hurried, asks <-chan drive.Request) *Virtual {
	return &Virtual{rig: rig, began: time.Now(), clock: time.Now, hurried: hurried, asks: asks}
}

// NewFast returns the world of a virtual rig whose time, and with it the
// engine's, goes as fast as it can be worked out.
func NewFast(rig *virtual.Rig, hurried, asks <-chan drive.Request) *Virtual {
	return &Virtual{rig: rig, began: time.Now(), hurried: hurried, asks: asks}
}

// Now is the rig's time of day.
func (v *Virtual) Now() time.Time {
	if v.clock != nil {
		return v.clock()
	}
	return v.began.Add(v.rig.Now())
}

// Write puts bytes on the wire of the rig, now.
func (v *Virtual) Write(p []byte) (int, error) {
	v.catchUp()
	return v.rig.Write(p)
}

// finest is the shortest time that is worth waiting: the system does not wake
// anyone sooner.
const finest = 200 * time.Microsecond

// Wait returns the first thing that happens, or Nothing at until.
func (v *Virtual) Wait(until time.Time) drive.Event {
	for {
		if r, ok := v.request(); ok {
			return asked(r)
		}
		v.catchUp()
		if b := v.rig.Read(nil); len(b) > 0 {
			return drive.Event{Kind: drive.Heard, Bytes: b}
		}
		if v.rig.Gone() && !v.gone {
			v.gone = true
			return drive.Event{Kind: drive.Gone, Err: virtual.ErrGone}
		}
		if !v.Now().Before(until) {
			return drive.Event{}
		}
		if v.clock == nil {
			v.rig.AdvanceTo(v.next(until).Sub(v.began))
			continue
		}
		if r, ok := v.sleep(time.Until(v.next(until))); ok {
			return asked(r)
		}
	}
}

// next is when something happens, until at the latest.
func (v *Virtual) next(until time.Time) time.Time {
	for _, soon := range []func() (time.Duration, bool){v.rig.Next, v.rig.NextReply} {
		if d, ok := soon(); ok && v.began.Add(d).Before(until) {
			until = v.began.Add(d)
		}
	}
	return until
}

func (v *Virtual) catchUp() {
	if v.clock != nil {
		v.rig.AdvanceTo(v.clock().Sub(v.began))
	}
}

// request is one that is there already, the hurried first.
func (v *Virtual) request() (drive.Request, bool) {
	for _, from := range []<-chan drive.Request{v.hurried, v.asks} {
		select {
		case r := <-from:
			return r, true
		default:
		}
	}
	return drive.Request{}, false
}

// sleep lets our time pass, or returns a request that ends it.
func (v *Virtual) sleep(d time.Duration) (drive.Request, bool) {
	timer := time.NewTimer(max(d, finest))
	defer timer.Stop()
	select {
	case r := <-v.hurried:
		return r, true
	case r := <-v.asks:
		return r, true
	case <-timer.C:
		return drive.Request{}, false
	}
}

// Close does nothing: there is nothing to give back.
func (v *Virtual) Close() error { return nil }
