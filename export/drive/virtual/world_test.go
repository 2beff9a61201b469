package virtual_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"

	"seamrail/export/drive"
	"seamrail/export/drive/virtual"
)

var _ drive.World = (*virtual.World)(nil)

// at returns a moment of the virtual clock.
func at(d time.Duration) time.Time { return virtual.Epoch.Add(d) }

func TestWorldWaitsForTheFirstThing(t *testing.T) {
	r := virtual.New(bench())
	w := virtual.NewWorld(r,
		virtual.Asking{At: 3 * time.Second, Request: drive.Request{Kind: drive.Stop}},
		virtual.Asking{At: time.Second, Request: drive.Request{Kind: drive.Confirm}})
	w.Write([]byte("G94\nG4 P1.5\n"))

	e := w.Wait(at(5 * time.Second))
	assert.Equal(t, drive.Heard, e.Kind)
	assert.Equal(t, "ok\r\n", string(e.Bytes))
	assert.Equal(t, at(time.Millisecond), w.Now(), "bytes lie a millisecond at the host")

	e = w.Wait(at(5 * time.Second))
	assert.Equal(t, drive.Asked, e.Kind)
	assert.Equal(t, drive.Confirm, e.Request.Kind)
	assert.Equal(t, at(time.Second), w.Now())

	assert.Equal(t, drive.Nothing, w.Wait(at(1200*time.Millisecond)).Kind)
	assert.Equal(t, at(1200*time.Millisecond), w.Now())
	assert.Equal(t, drive.Nothing, w.Wait(at(0)).Kind, "a moment that is past")
	assert.Equal(t, at(1200*time.Millisecond), w.Now())

	assert.Equal(t, drive.Heard, w.Wait(at(5*time.Second)).Kind)
	assert.Equal(t, drive.Stop, w.Wait(at(5*time.Second)).Request.Kind)
	assert.Equal(t, drive.Nothing, w.Wait(at(5*time.Second)).Kind)
	assert.Equal(t, at(5*time.Second), w.Now())

	w.Ask(virtual.Asking{At: time.Second, Request: drive.Request{Kind: drive.Quit}})
	assert.Equal(t, drive.Quit, w.Wait(at(6*time.Second)).Request.Kind, "asked late, it comes at once")
}

func TestWorldTellsOnceThatTheWireIsGone(t *testing.T) {
	o := bench()
	o.Faults = []virtual.Fault{{Kind: virtual.Vanish, At: time.Second}}
	w := virtual.NewWorld(virtual.New(o))
	e := w.Wait(at(5 * time.Second))
	assert.Equal(t, drive.Gone, e.Kind)
	assert.ErrorIs(t, e.Err, virtual.ErrGone)
	assert.Equal(t, at(time.Second), w.Now())
	assert.Equal(t, drive.Nothing, w.Wait(at(5*time.Second)).Kind)
}

// While the host sleeps the board goes on; then it hears all at once.
func TestHostSleeps(t *testing.T) {
	o := bench()
	o.Faults = []virtual.Fault{{Kind: virtual.SleepHost, At: time.Second, For: 10 * time.Second}}
	r := virtual.New(o)
	w := virtual.NewWorld(r)
	w.Write([]byte("G94\nG1 X100 F1200\nG4 P0.1\n"))
	assert.Equal(t, drive.Heard, w.Wait(at(time.Minute)).Kind)
	e := w.Wait(at(2 * time.Second))
	assert.Equal(t, drive.Slept, e.Kind)
	assert.Equal(t, 10*time.Second, e.Duration)
	assert.Equal(t, at(11*time.Second), w.Now())
	assert.Equal(t, []float64{100}, r.Place())
	assert.Equal(t, "ok\r\n", string(w.Wait(at(time.Minute)).Bytes))
}
