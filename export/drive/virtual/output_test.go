package virtual_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/export/drive/virtual"
)

// lamps is the bench board with a lamp and a bell on it.
func lamps() virtual.Options {
	o := onTheDot()
	o.Outputs = []virtual.Output{{Name: "lamp", On: "M8", Off: "M9"}, {Name: "bell", On: "M7", Off: "M9"}}
	return o
}

// TestAnOutputWaitsForMotion: it is switched when all motion before it has ended, and off
// by a word that is that of two.
func TestAnOutputWaitsForMotion(t *testing.T) {
	h := newHost(t, lamps())
	require.Empty(t, h.stream("G94", "G1 X10 F600", "M8", "m 7", "G4 P0.2", "m9"))
	h.finish()
	s := h.rig.Record().Switches()
	require.Len(t, s, 4)
	moved := h.rig.Record().Span(h.rig.Record().Len() - 1).End
	assert.InDelta(t, moved, s[0].Seconds, 1e-6)
	assert.Equal(t, "lamp", s[0].Output)
	assert.True(t, s[0].On)
	assert.InDelta(t, s[0].Seconds+0.2, s[2].Seconds, 1e-6)
	assert.False(t, s[2].On || s[3].On)
	assert.Empty(t, h.rig.Lit())
}

// TestABoardSwitchesOffByItself: at its reset, at the end of a program and in an alarm.
func TestABoardSwitchesOffByItself(t *testing.T) {
	for name, ends := range map[string]func(h *host){
		"reset":  func(h *host) { h.rig.Write([]byte{0x18}) },
		"M2":     func(h *host) { h.stream("M2") },
		"M30":    func(h *host) { h.stream("M30") },
		"a word": func(h *host) { h.stream("M9") },
	} {
		h := newHost(t, lamps())
		require.Empty(t, h.stream("M8"), name)
		assert.Equal(t, []string{"lamp"}, h.rig.Lit())
		ends(h)
		h.finish()
		assert.Empty(t, h.rig.Lit(), name)
		assert.Len(t, h.rig.Record().Switches(), 2)
	}
}

// TestAnOutputThatIsNotThere is refused like any word that is not known.
func TestAnOutputThatIsNotThere(t *testing.T) {
	o := lamps()
	o.Outputs[1].Lacks = true
	h := newHost(t, o)
	assert.Equal(t, []string{"error:20"}, h.stream("M7"))
	assert.Equal(t, []string{"error:20"}, h.stream("M106"))
	assert.Empty(t, h.rig.Lit())
}

// TestAPlayerSwitches: version 2 has outputs, version 1 knows no such frame.
func TestAPlayerSwitches(t *testing.T) {
	b := newPlayer(t, func(o *virtual.Options) {
		o.Outputs = []virtual.Output{{Name: "lamp", Number: 1}, {Name: "bell", Number: 3}}
		o.Numbered = 3
	})
	b.begin(time.Millisecond)
	assert.Equal(t, "a1024", b.do('O', 5))
	assert.Equal(t, []string{"lamp", "bell"}, b.rig.Lit())
	assert.Equal(t, "a1024", b.do('O', 4))
	assert.Equal(t, []string{"bell"}, b.rig.Lit())
	assert.Equal(t, "n3", b.do('O', 8), "a fourth that it does not have")
	b.next--
	assert.Equal(t, "n3", b.do('O'))
	b.next--
	assert.Equal(t, "n3", b.do('O', 1, 0, 0, 0, 0), "for no time")
	b.next--
	assert.Equal(t, "a1024", b.do('O', 1, 200, 0, 0, 0))
	b.rig.Advance(190 * time.Millisecond)
	assert.Equal(t, []string{"lamp"}, b.rig.Lit())
	b.rig.Advance(15 * time.Millisecond)
	assert.Empty(t, b.rig.Lit(), "it has gone out by itself")
	assert.Equal(t, "h", b.do('H'))
	assert.Empty(t, b.rig.Lit())
	b.do('O', 1)
	b.send(vectors(t)["abort"])
	assert.Empty(t, b.rig.Lit())

	old := newPlayer(t, nil)
	old.begin(time.Millisecond)
	assert.Equal(t, "n3", old.do('O', 1))
}
