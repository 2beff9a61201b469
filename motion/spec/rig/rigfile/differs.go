package rigfile

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"seamrail/motion/base/source"
	"seamrail/motion/spec/rig"
)

// Difference is a value of a rig file that is not what the controller says.
type Difference struct {
	Key        string // "axis.rail.steps"
	File       string // what the file says, or what is filled in for it
	Controller string // what the controller says
	Line       int    // of the file; 0 where it leaves the key out
}

// String prints it in words.
func (d Difference) String() string {
	return fmt.Sprintf("%s: the file says %s, the controller %s", d.Key, d.File, d.Controller)
}

// Differs compares a rig file, as it was understood, with what a controller says. What
// the controller does not tell is not compared.
func Differs(b Board, r rig.Rig, data []byte) []Difference {
	c := &comparison{b: b, r: r, lines: map[string]int{}}
	if doc, ok := source.Parse("", data, &source.Report{}); ok {
		for _, v := range doc.Values() {
			c.lines[v.Path] = v.Text.Line
		}
	}
	if !r.Controller.Kind.Driven() {
		c.differ("controller.kind", r.Controller.Kind.String(), b.Kind.String())
		return c.out
	}
	c.controller()
	for _, a := range r.Axes {
		c.axis(a)
	}
	return c.out
}

type comparison struct {
	b     Board
	r     rig.Rig
	lines map[string]int
	out   []Difference
}

func (c *comparison) differ(key, file, board string) {
	c.out = append(c.out, Difference{key, file, board, c.lines[key]})
}

// sameShare is how far a printed number may be from the file's, as a share, and
// printGrain at least: controllers print three decimals.
const (
	sameShare  = 1e-4
	printGrain = 0.0005
)

func same(a, b float64) bool { return math.Abs(a-b) <= max(sameShare*math.Abs(a), printGrain) }

func (c *comparison) number(key string, told bool, board, file float64, unit string) {
	if told && !same(file, board) {
		c.differ(key, rounded(file)+unit, rounded(board)+unit)
	}
}

func (c *comparison) controller() {
	b, is := c.b, c.r.Controller
	if is.Kind != b.Kind {
		c.differ("controller.kind", is.Kind.String(), b.Kind.String())
	}
	c.number("controller.baud", true, float64(b.Baud), float64(is.Baud), "")
	if b.Greeting != "" && is.Greeting != "" && !strings.HasPrefix(b.Greeting, is.Greeting) {
		c.differ("controller.greeting", strconv.Quote(is.Greeting), strconv.Quote(clipped(b.Greeting)))
	}
	c.number("controller.receive-buffer", b.Bytes > 0, float64(b.Bytes+1), float64(is.ReceiveBuffer), " bytes")
	c.number("controller.blocks", b.Blocks > 0, float64(b.Blocks+1), float64(is.Blocks), "")
	if letters := b.AxisLetters(); letters != "" && is.Letters != "" && letters != is.Letters {
		c.differ("controller.letters", is.Letters, letters)
	}
	junction, told := b.setting(rig.Junction)
	c.number("controller.junction-deviation", told, junction, is.JunctionDeviation, " mm")
	c.idle(is)
	for k := range rig.SettingCount {
		got, told := b.setting(k)
		if stated := is.Stated[k]; told && stated.Known {
			c.number("controller.settings."+k.String(), true, got, stated.Value, "")
		}
	}
}

// idle compares the idle delay: the controller prints StaysOn for none.
func (c *comparison) idle(is rig.Controller) {
	got, told := c.b.setting(rig.IdleWait)
	if !told {
		return
	}
	says := func(ms float64, at0 bool) string {
		if ms >= rig.StaysOn || ms == 0 && !at0 {
			return none
		}
		return rounded(ms) + " ms"
	}
	if file, board := says(is.IdleDelay*1000, is.IdleAtOnce), says(got, true); file != board {
		c.differ("controller.idle-delay", file, board)
	}
}

func (c *comparison) axis(a rig.Axis) {
	path := source.Join("axis", a.Name) + "."
	if letters := c.b.AxisLetters(); letters != "" && !strings.Contains(letters, a.Letter) {
		c.differ(path+"letter", a.Letter, "tells of "+letters+" alone")
		return
	}
	read, unit := c.b.axis(a.Letter), " "+a.Unit()
	c.number(path+"steps", read.steps > 0, read.steps, a.StepsPerUnit.Float(), " per"+unit)
	c.number(path+"settings.speed", read.speed > 0, read.speed, a.Settings.Speed, unit+"/s")
	c.number(path+"settings.acceleration", read.acceleration > 0, read.acceleration, a.Settings.Acceleration, unit+"/s2")
	if soft, on := c.b.setting(rig.SoftLimits); on && soft != 0 && read.travel > 0 && a.Travel() > read.travel+printGrain {
		c.differ(path+"travel", rounded(a.Travel())+unit, fmt.Sprintf("stops it after %s%s, by its soft limits", rounded(read.travel), unit))
	}
}
