package rig

import (
	"fmt"
	"slices"
	"strings"

	"seamrail/motion/base/exact"
	"seamrail/motion/base/source"
	"seamrail/motion/base/unit"
)

// Bounds of a controller. A line of 40 characters still holds four words of a
// block; RS-274/NGC itself stops at 256 (NISTIR 6556). Six decimals of a
// millimetre are a nanometre. The others are beyond any board of the trade.
const (
	minLineLength, maxLineLength = 40, 256
	maxDecimals                  = 6
	minBaud, maxBaud             = 300, 12_000_000
	minReceive, maxReceive       = 16, 1 << 20
	minBlocks, maxBlocks         = 3, 10_000
	maxStepRate                  = 100_000_000
	maxSegmentRate               = 100_000
	maxJunction                  = 10   // mm
	maxDegreeAs                  = 1000 // mm
)

// maxRateError is ten times what a cheap resonator is off by: more is not an
// error of the clock.
var maxRateError = exact.New(5, 100)

// none is the word for what a controller does not have.
const none = "none"

// controllerBuilder understands a [controller] table. What it fills in beyond
// the keys that every plan states goes into one line.
type controllerBuilder struct {
	report *source.Report
	raw    RawController
	path   string // "controller."
	filled []string
	keys   []string // of what is filled in
}

func (raw RawController) build(report *source.Report, path string) Controller {
	b := controllerBuilder{report: report, raw: raw, path: path}
	k := raw.kind(report, path)
	if !k.Driven() {
		return buttonsBuilder{report, raw, path}.build(k)
	}
	stray(report, raw, path, []string{"buttons", "ramp"}, true, "belongs to a controller that is set and started by hand, and this one is "+k.String())
	c := k.Defaults()
	b.reading(&c)
	b.pace(&c)
	b.talk(&c)
	b.letters(&c)
	b.settings(&c)
	b.clashes(c)
	if len(b.filled) > 0 {
		report.Default(strings.TrimSuffix(path, "."), strings.Join(b.filled, ", "), "as a "+c.Kind.String()+" controller has it")
	}
	c.Filled = slices.Clone(b.keys)
	b.reports(&c)
	return c
}

// reading reads what its lines look like.
func (b *controllerBuilder) reading(c *Controller) {
	raw := b.raw
	if !raw.Feed.Set {
		why := "a block then takes exactly the time it should"
		if c.Feed == PerMinute {
			why = "as RS-274/NGC has it unless told"
		}
		b.report.Default(b.path+"feed", c.Feed.String(), why)
	} else if w, ok := b.report.Choice(raw.Feed, b.path+"feed", InverseTime.String(), PerMinute.String()); ok {
		c.Feed = InverseTime
		if w == PerMinute.String() {
			c.Feed = PerMinute
		}
	}
	if !raw.PathFeed.Set {
		b.fill("path-feed", c.PathFeed.String())
	} else if w, ok := b.report.Choice(raw.PathFeed, b.path+"path-feed", AlongLinear.String(), AlongAll.String()); ok {
		c.PathFeed = AlongLinear
		if w == AlongAll.String() {
			c.PathFeed = AlongAll
		}
	}
	b.quantity(raw.DegreeAs, "degree-as", &c.DegreeAs, above0, maxDegreeAs, unit.Length)
	wholeOr(b.report, raw.LineLength, b.path+"line-length", minLineLength, maxLineLength, &c.LineLength, "every controller reads as much")
	wholeOr(b.report, raw.Decimals, b.path+"decimals", 0, maxDecimals, &c.Decimals, "a micrometre, or a thousandth of a degree")
	b.whole(raw.FeedDecimals, "feed-decimals", 0, maxDecimals, &c.FeedDecimals)
	b.whole(raw.Baud, "baud", minBaud, maxBaud, &c.Baud)
	b.whole(raw.ReceiveBuffer, "receive-buffer", minReceive, maxReceive, &c.ReceiveBuffer)
}

// pace reads what it does with the lines.
func (b *controllerBuilder) pace(c *Controller) {
	raw := b.raw
	if raw.StepRate.Set {
		b.orNone(raw.StepRate, "step-rate", &c.StepRate, maxStepRate, unit.StepRate, unit.Number)
	} else {
		b.report.Default(b.path+"step-rate", "no limit", "the rig states none")
	}
	b.orNone(raw.SlowestStepRate, "slowest-step-rate", &c.SlowestStepRate, maxStepRate, unit.StepRate, unit.Number)
	b.whole(raw.Blocks, "blocks", minBlocks, maxBlocks, &c.Blocks)
	b.orNone(raw.SegmentRate, "segment-rate", &c.SegmentRate, maxSegmentRate, unit.Number)
	b.quantity(raw.JunctionDeviation, "junction-deviation", &c.JunctionDeviation, from0, maxJunction, unit.Length)
	b.rateError(c)
	b.clock(c)
}

func (b *controllerBuilder) rateError(c *Controller) {
	t := b.raw.RateError
	if !t.Set {
		b.fill("rate-error", "0")
		return
	}
	q, ok := b.report.Quantity(t, b.path+"rate-error", unit.Number)
	if ok && maxRateError.Less(q.Value.Abs()) {
		b.report.Wrong(t, b.path+"rate-error", "must be from -5 % to 5 %", `such as "0.07 %", or 0 until it is measured`)
	}
	c.RateError = q.Float()
}

func (b *controllerBuilder) fill(key, value string) {
	b.filled, b.keys = append(b.filled, key+" "+value), append(b.keys, key)
}

func (b *controllerBuilder) whole(t source.Text, key string, low, high int64, value *int) {
	if !t.Set {
		b.fill(key, fmt.Sprint(*value))
		return
	}
	if n, ok := b.report.Whole(t, b.path+key, low, high); ok {
		*value = int(n)
	}
}

// orNone reads a rate above 0, or the word none for 0.
func (b *controllerBuilder) orNone(t source.Text, key string, value *float64, high float64, dims ...unit.Dimension) {
	switch {
	case t.Set && t.Text == none:
		*value = 0
	case !t.Set && *value == 0:
		b.fill(key, none)
	default:
		b.quantity(t, key, value, above0, high, dims...)
	}
}

// floor says from where a value may go.
type floor bool

const (
	above0 floor = false
	from0  floor = true
)

// quantity reads a value of at most high, in the unit of the first dimension.
func (b *controllerBuilder) quantity(t source.Text, key string, value *float64, low floor, high float64, dims ...unit.Dimension) {
	if !t.Set {
		b.fill(key, unit.Format(*value, dims[0]))
		return
	}
	q, ok := b.report.Quantity(t, b.path+key, dims...)
	if !ok {
		return
	}
	*value = q.Float()
	if q.Value.Sign() > 0 && *value <= high || low == from0 && q.Value.Sign() == 0 {
		return
	}
	words := "must be above 0 and at most "
	if low == from0 {
		words = "must be from 0 to "
	}
	b.report.Wrong(t, b.path+key, words+strings.TrimSpace(fmt.Sprintf("%.0f %s", high, dims[0].Unit())), "")
}

// wholeOr reads a whole number into value, or records the default it holds.
func wholeOr(report *source.Report, t source.Text, path string, low, high int64, value *int, why string) {
	if !t.Set {
		report.Default(path, fmt.Sprint(*value), why)
		return
	}
	if n, ok := report.Whole(t, path, low, high); ok {
		*value = int(n)
	}
}
