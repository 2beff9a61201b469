package drive_test

import (
	"bytes"
	"fmt"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"seamrail/export/drive"
	"seamrail/export/drive/virtual"
	"seamrail/motion/spec/rig"
)

// inquired asks a board of the bench what it is.
func inquired(change func(o *virtual.Options)) (drive.Board, *virtual.Rig, error) {
	o := virtual.Of(bench(rig.Buffered))
	o.Greeting = "Board 7 of the bench"
	if change != nil {
		change(&o)
	}
	r := virtual.New(o)
	b, err := drive.Inquire(virtual.NewWorld(r), rig.Buffered.Defaults(), &witness{})
	return b, r, err
}

func TestInquire(t *testing.T) {
	b, r, err := inquired(nil)
	require.NoError(t, err)
	require.Equal(t, "Board 7 of the bench", b.Greeting)
	for name, want := range map[string]float64{"$0": 10, "$1": 255, "$11": 0.01, "$22": 1, "$32": 0, "$100": 80, "$113": 10800, "$120": 3000, "$130": 400} {
		got, printed := b.Settings[name]
		require.True(t, printed, name)
		require.Equal(t, want, got, name)
	}
	require.Zero(t, r.Record().Len(), "nothing moves")
	require.Zero(t, r.Stats().Errors)

	b, _, err = inquired(func(o *virtual.Options) { o.Greeting, o.ResetsOnOpen = "", false })
	require.NoError(t, err)
	require.Empty(t, b.Greeting, "a setting is no greeting")
	require.NotEmpty(t, b.Settings)
}

// Texts that take seconds on a slow wire are read to their end, and hardly a report
// is asked for meanwhile.
func TestInquireOnASlowWire(t *testing.T) {
	const baud, texts = 4800, 60
	o := virtual.Of(bench(rig.Buffered))
	o.Greeting, o.Baud = "Board 7 of the bench", baud
	for i := range texts {
		o.Others = append(o.Others, fmt.Sprintf("$%d=1 (a setting that is told of in a long text)", 300+i))
	}
	c := rig.Buffered.Defaults()
	c.Baud = baud
	w := &poller{World: virtual.NewWorld(virtual.New(o)), status: c.Status}
	b, err := drive.Inquire(w, c, &witness{})
	require.NoError(t, err)
	require.Contains(t, b.Settings, "$359")
	require.Greater(t, w.Now().Sub(virtual.Epoch), 6*time.Second)
	require.Less(t, w.most, 4, "reports at once")
}

// poller counts the reports that are asked for and have not come.
type poller struct {
	drive.World
	status     byte
	open, most int
}

func (p *poller) Write(b []byte) (int, error) {
	n, err := p.World.Write(b)
	p.open += bytes.Count(b[:n], []byte{p.status})
	p.most = max(p.most, p.open)
	return n, err
}

func (p *poller) Wait(until time.Time) drive.Event {
	e := p.World.Wait(until)
	p.open -= bytes.Count(e.Bytes, []byte{'<'})
	return e
}

func TestInquireFails(t *testing.T) {
	_, _, err := inquired(func(o *virtual.Options) { o.Faults = []virtual.Fault{{Kind: virtual.FallSilent}} })
	require.ErrorContains(t, err, "silent: no answer to an empty line")
	_, _, err = inquired(func(o *virtual.Options) { o.SettingsLine, o.StartsLocked = "$S", false })
	require.ErrorContains(t, err, `line refused: error:1 on line 1, "$$"`)
	_, _, err = inquired(func(o *virtual.Options) { o.Faults = []virtual.Fault{{Kind: virtual.Vanish, At: 1e9}} })
	require.ErrorContains(t, err, "port lost")
	require.Panics(t, func() { _, _ = drive.Inquire(nil, rig.StepPlayer.Defaults(), &witness{}) })
	require.Panics(t, func() { _, _ = drive.Inquire(nil, rig.Lockstep.Defaults(), &witness{}) })
}
