package host_test

import (
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/cmd/internal/host"
	"seamrail/export/drive"
	"seamrail/export/drive/virtual"
	"seamrail/motion/base/exact"
	"seamrail/motion/spec/rig"
)

// bench is a board with one axis, that homes nothing.
func bench() *virtual.Rig {
	c := rig.Buffered.Defaults()
	c.Greeting, c.HomeLine, c.UnlockLine = "Hello", "", ""
	return virtual.New(virtual.Of(rig.Rig{Controller: c, Axes: []rig.Axis{{
		Name: "rail", Letter: "X", Max: 400, MaxSpeed: 400, MaxAcc: 1000, StepsPerUnit: exact.Int(80),
		Settings: rig.AxisSettings{Acceleration: 1000, Speed: 400},
	}}}))
}

// heard waits until the rig has said a word, and returns all that was heard.
func heard(t *testing.T, w drive.World, word string, until time.Time) string {
	t.Helper()
	var b strings.Builder
	for !strings.Contains(b.String(), word) {
		e := w.Wait(until)
		require.Equal(t, drive.Heard, e.Kind, "%q so far", b.String())
		b.Write(e.Bytes)
	}
	return b.String()
}

// An hour of the rig's passes in no time of ours, and to the nanosecond.
func TestFastTime(t *testing.T) {
	w := host.NewFast(bench(), nil, nil)
	from := w.Now()
	heard(t, w, "Hello\r\n", from.Add(time.Minute))
	n, err := w.Write([]byte("G4 P3600\n"))
	require.NoError(t, err)
	require.Equal(t, 9, n)
	heard(t, w, "ok\r\n", from.Add(2*time.Hour))
	assert.Greater(t, w.Now().Sub(from), time.Hour)
	until := w.Now().Add(time.Hour)
	assert.Equal(t, drive.Nothing, w.Wait(until).Kind)
	assert.True(t, w.Now().Equal(until), "%v", w.Now().Sub(until))
	assert.NoError(t, w.Close())
}

func TestRequestsReachAFastRig(t *testing.T) {
	hurried, asks := make(chan drive.Request, 1), make(chan drive.Request, 1)
	w := host.NewFast(bench(), hurried, asks)
	asks <- drive.Request{Kind: drive.Finish}
	hurried <- drive.Request{Kind: drive.Stop}
	assert.Equal(t, drive.Stop, w.Wait(w.Now().Add(time.Hour)).Request.Kind)
	assert.Equal(t, drive.Finish, w.Wait(w.Now().Add(time.Hour)).Request.Kind)
	assert.WithinDuration(t, time.Now(), w.Now(), time.Hour, "it begins now")
}

// A rig that lives in our time answers neither before its time nor long after.
func TestOwnTime(t *testing.T) {
	o := virtual.Of(rig.Rig{Controller: rig.Buffered.Defaults(), Axes: []rig.Axis{{Name: "rail", Letter: "X", Max: 400, MaxSpeed: 400, MaxAcc: 1000, StepsPerUnit: exact.Int(80)}}})
	o.ResetsOnOpen, o.StartsLocked = false, false
	w := host.New(virtual.NewPort(virtual.New(o), 1), o.Baud, nil, nil)
	defer func() { assert.NoError(t, w.Close()) }()
	from := w.Now()
	_, err := w.Write([]byte("G4 P0.05\n"))
	require.NoError(t, err)
	heard(t, w, "ok\r\n", from.Add(soon))
	assert.GreaterOrEqual(t, w.Now().Sub(from), 50*time.Millisecond)
	assert.Equal(t, drive.Nothing, w.Wait(w.Now().Add(time.Millisecond)).Kind)
}
