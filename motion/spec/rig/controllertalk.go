package rig

import (
	"fmt"
	"strconv"
	"strings"

	"seamrail/motion/base/source"
)

// talk reads how it greets, what it is told out of line, and the lines it has
// beyond RS-274/NGC.
func (b *controllerBuilder) talk(c *Controller) {
	raw := b.raw
	b.words(raw.Greeting, "greeting", &c.Greeting)
	if raw.ResetsOnOpen.Set {
		c.ResetsOnOpen = raw.ResetsOnOpen.On
	} else {
		b.fill("resets-on-open", strconv.FormatBool(c.ResetsOnOpen))
	}
	b.realTime(raw.Status, "status", &c.Status)
	b.realTime(raw.Hold, "hold", &c.Hold)
	b.realTime(raw.Resume, "resume", &c.Resume)
	b.realTime(raw.Abort, "abort", &c.Abort)
	b.words(raw.HomeLine, "home-line", &c.HomeLine)
	b.words(raw.UnlockLine, "unlock-line", &c.UnlockLine)
	b.words(raw.SettingsLine, "settings-line", &c.SettingsLine)
	b.words(raw.JogLine, "jog-line", &c.JogLine)
	b.realTime(raw.JogCancel, "jog-cancel", &c.JogCancel)
}

// words reads a line of plain characters, or none.
func (b *controllerBuilder) words(t source.Text, key string, value *string) {
	if !t.Set {
		b.fill(key, orNone(*value))
		return
	}
	switch {
	case t.Text == none:
		*value = ""
	case !plainLine(t.Written()):
		b.report.Wrong(t, b.path+key, fmt.Sprintf("must be 1 to %d plain characters without spaces at the ends", minLineLength), `or "none"`)
	default:
		*value = t.Text
	}
}

func orNone(s string) string {
	if s == "" {
		return none
	}
	return s
}

// plainLine tells whether s is a line that every controller can read whole.
func plainLine(s string) bool {
	return s != "" && len(s) <= minLineLength && strings.TrimSpace(s) == s &&
		strings.IndexFunc(s, func(r rune) bool { return r < ' ' || r > '~' }) < 0
}

// ordinary are the characters of a program's lines: a real-time byte among
// them would be picked out of every line.
const ordinary = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789.+- ()\r\n"

// realTime reads a byte, written as a character or as 0x18, or none.
func (b *controllerBuilder) realTime(t source.Text, key string, value *byte) {
	if !t.Set {
		b.fill(key, byteName(*value))
		return
	}
	if t.Text == none {
		*value = 0
		return
	}
	c, ok := parseByte(t.Text)
	switch {
	case !ok:
		b.report.Wrong(t, b.path+key, `must be one character, a byte such as "0x18", or "none"`, "")
	case strings.IndexByte(ordinary, c) >= 0:
		b.report.Wrong(t, b.path+key, "must not be a character of ordinary lines", "")
	default:
		*value = c
	}
}

// parseByte reads a byte other than 0.
func parseByte(s string) (byte, bool) {
	if digits, ok := strings.CutPrefix(s, "0x"); ok && len(digits) == 2 {
		n, err := strconv.ParseUint(digits, 16, 8)
		return byte(n), err == nil && n > 0
	}
	if len(s) != 1 {
		return 0, false
	}
	return s[0], s[0] > ' ' && s[0] <= '~'
}

// byteName writes a byte as the rig file has it.
func byteName(c byte) string {
	switch {
	case c == 0:
		return none
	case c > ' ' && c <= '~':
		return string(rune(c))
	}
	return fmt.Sprintf("0x%02x", c)
}

// clashes finds values that are right alone and wrong together.
func (b *controllerBuilder) clashes(c Controller) {
	raw := b.raw
	b.sameByte(c)
	for _, l := range []struct {
		key, line string
		text      source.Text
	}{
		{"home-line", c.HomeLine, raw.HomeLine}, {"unlock-line", c.UnlockLine, raw.UnlockLine}, {"settings-line", c.SettingsLine, raw.SettingsLine},
		{"jog-line", c.JogLine, raw.JogLine},
	} {
		for _, r := range []byte{c.Status, c.Hold, c.Resume, c.Abort, c.JogCancel} {
			if l.text.Set && r != 0 && strings.IndexByte(l.line, r) >= 0 {
				b.report.Wrong(l.text, b.path+l.key, fmt.Sprintf("must not hold the real-time byte %s", byteName(r)), "")
			}
		}
	}
	if c.Kind.Counted() && c.LineLength >= c.ReceiveBuffer {
		b.report.Wrong(lineOf(raw.LineLength, raw.ReceiveBuffer), b.path+"line-length",
			fmt.Sprintf("must be below the receive buffer, %d bytes", c.ReceiveBuffer), "a line and its end are held whole")
	}
	if c.StepRate > 0 && c.SlowestStepRate >= c.StepRate {
		b.report.Wrong(lineOf(raw.SlowestStepRate, raw.StepRate), b.path+"slowest-step-rate",
			fmt.Sprintf("must be below the step-rate, %g steps/s", c.StepRate), "")
	}
}

// lineOf returns the text that was written, the first if both were.
func lineOf(a, b source.Text) source.Text {
	if a.Set {
		return a
	}
	return b
}

func (b *controllerBuilder) sameByte(c Controller) {
	owner := map[byte]string{}
	for _, x := range []struct {
		key  string
		text source.Text
		b    byte
	}{
		{"status", b.raw.Status, c.Status}, {"hold", b.raw.Hold, c.Hold},
		{"resume", b.raw.Resume, c.Resume}, {"abort", b.raw.Abort, c.Abort},
		{"jog-cancel", b.raw.JogCancel, c.JogCancel},
	} {
		if x.b == 0 {
			continue
		}
		if other := owner[x.b]; other != "" {
			b.report.Add(x.text.Place(), b.path+x.key, byteName(x.b), "is the byte for "+other+" already", "")
		}
		owner[x.b] = x.key
	}
}
