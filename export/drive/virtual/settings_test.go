package virtual_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"seamrail/export/drive/virtual"
	"seamrail/motion/spec/rig"
)

// set returns the bench board with settings of its own, two axes and their
// names.
func set() virtual.Options {
	o := bench()
	o.Names, o.Set[rig.IdleWait], o.Set[rig.Homing] = rig.Buffered.Defaults().Reports, rig.StaysOn, 1
	o.Axes = append(o.Axes, o.Axes[0])
	o.Axes[1].Letter, o.Axes[1].Home, o.Axes[1].HomeLine = 'Y', 100, "$HY"
	for i, n := range []string{"0", "1"} {
		a := &o.Axes[i]
		a.StepsName, a.TravelName, a.Switches, a.Low, a.High = "$10"+n, "$13"+n, true, -2, 302
	}
	o.Others = []string{"$10=1"}
	return o
}

func TestTheBoardsSettingsArePrinted(t *testing.T) {
	h := newHost(t, set())
	assert.Equal(t, []string{
		"$0=0.000", "$1=255.000", "$2=0.000", "$3=0.000", "$4=0.000", "$11=0.010", "$13=0.000", "$20=0.000", "$21=0.000", "$22=1.000", "$23=0.000", "$32=0.000",
		"$10=1", "$100=80.000", "$130=300.000", "$101=80.000", "$131=300.000",
	}, h.stream("$$"))
	assert.Empty(t, h.stream("$1=25", "$11=0.02", "$32=1", "$32=0", "$130=250"))
	got := h.stream("$$")
	assert.Contains(t, got, "$1=25.000")
	assert.Contains(t, got, "$11=0.020")
	assert.Contains(t, got, "$130=250.000")
	assert.Contains(t, got, "$32=0.000")
	assert.Equal(t, []string{"error:2", "error:2"}, h.stream("$1=x", "$100=0"))
}

// A line of its own homes one axis; the board's homes all.
func TestHomingOfOneAxis(t *testing.T) {
	o := set()
	o.Axes[0].Place, o.Axes[1].Place = 50, 60
	h := newHost(t, o)
	assert.Empty(t, h.stream("$HY"))
	assert.InDelta(t, 50, h.rig.Place()[0], 1.0/80, "it has stayed")
	assert.InDelta(t, 100, h.rig.Place()[1], 1.0/80)
	assert.Equal(t, []string{"error:1"}, h.stream("$HX"), "no axis has such a line")
	assert.Empty(t, h.stream("$H"))
	assert.InDelta(t, 0, h.rig.Place()[0], 1.0/80)
}

func TestHomingThatIsOff(t *testing.T) {
	o := set()
	o.Set[rig.Homing] = 0
	h := newHost(t, o)
	assert.Equal(t, []string{"error:5", "error:5"}, h.stream("$H", "$HY"))
}

func TestReportsInInches(t *testing.T) {
	o := set()
	o.Set[rig.Inches] = 1
	h := newHost(t, o)
	assert.Empty(t, h.stream("G94 G1 X25.4 Y127 F6000"))
	h.finish()
	assert.Contains(t, h.say("?", 0)[0], "<Idle|MPos:1.0000,5.0000,")
}
