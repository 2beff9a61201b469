package judge

import (
	"fmt"
	"strings"

	"seamrail/motion/base/plain"
	"seamrail/motion/camera/picture"
	"seamrail/motion/drivetrain/torque"
	"seamrail/motion/plan"
)

// Tone is how a headline is to be taken, and in what colour.
type Tone int

// The tones, best first.
const (
	Clear  Tone = iota // nothing is wrong, and nothing that was asked is not known
	Minded             // it can be driven, and something will not look right or is not known
	Barred             // it must not be driven as it is
)

// String is "clear", "minded" or "barred".
func (t Tone) String() string { return [...]string{"clear", "minded", "barred"}[t] }

// Headline is the first thing said of a plan, the same everywhere.
type Headline struct {
	Tone    Tone
	Stamp   string   // "READY", "READY, BUT" or "NOT READY"
	Words   string   // in sentences
	Fails   []string // checks that fail and keep no rig from being driven
	Unknown []string // checks that could not be made
	Pending bool     // whether the controller follows is still being worked out
}

// Ready tells whether the rig may be driven.
func (h Headline) Ready() bool { return h.Tone != Barred }

// Headline makes the headline of a case and its verdicts. One rule makes it: it
// names all that fails and all that is not known, whether or not the rig may be
// driven, and says that all is well of nothing else.
func (c Case) Headline(verdicts []picture.Verdict) Headline {
	if c.Picture != nil {
		verdicts = append(append([]picture.Verdict{}, verdicts...), c.Picture.Verdicts...)
	}
	h := Headline{Fails: named(verdicts, picture.Poor), Unknown: named(verdicts, picture.Unknown)}
	if c.Picture == nil {
		h.Unknown = append(h.Unknown, "how it looks (the shot has no camera and scene)")
	}
	barred, driven := c.barred(), c.Plan.Rig.Controller.Kind.Driven()
	if barred == "" && c.Controller == nil && !c.Pending && c.Frames == nil && driven {
		h.Unknown = append(h.Unknown, "whether the controller follows")
	}
	switch {
	case barred != "":
		h.Tone, h.Stamp = Barred, "NOT READY"
		h.Words = barred + besides(h.Fails) + unknown(h.Unknown)
	case len(h.Fails) > 0:
		h.Tone, h.Stamp = Minded, "READY, BUT"
		h.Words = failing(c.lead(verdicts), h.Fails) + unknown(h.Unknown)
	case len(h.Unknown) > 0:
		h.Tone, h.Stamp = Minded, "READY"
		h.Words = c.lead(verdicts) + "; every check that could be made passed." + unknown(h.Unknown)
	default:
		h.Tone, h.Stamp = Clear, "READY"
		h.Words = c.lead(verdicts) + "; every check passed."
	}
	if barred == "" && c.Pending && driven {
		h.Words += " Whether the controller follows is being worked out."
		h.Tone, h.Pending = max(h.Tone, Minded), true
	}
	return h
}

// named lists the checks that came out at a level, each once.
func named(all []picture.Verdict, level picture.Level) []string {
	var out []string
	seen := map[string]bool{}
	for _, v := range all {
		if v.Level == level && !seen[v.Check] {
			seen[v.Check] = true
			out = append(out, v.Check)
		}
	}
	return out
}

// barred says what keeps the rig from being driven, "" for nothing.
func (c Case) barred() string {
	if n := len(Apart(c.Plan.Breaches())); n > 0 {
		return fmt.Sprintf("The move asks for more than the rig can do, in %s.", plain.Count(n, "place"))
	}
	if !c.Verified.OK {
		return fmt.Sprintf("The move is within the limits, but %s did not pass.", plain.Count(len(c.Verified.Failed()), "check"))
	}
	if short := c.shortMotors(); len(short) > 0 {
		return "The move is within the limits, but " + motorsOf(short) + " not the torque for it."
	}
	if c.Controller != nil && !c.Controller.Follows() {
		return "The move is within the limits, but the controller cannot follow it."
	}
	return ""
}

// Apart leaves out what a run-up or run-out breaks because the loop does: a
// table that is too fast in the loop is too fast on its way there.
func Apart(all []plan.Breach) []plan.Breach {
	type key struct{ axis, quantity string }
	seen := map[key]bool{}
	var out []plan.Breach
	for _, b := range all {
		k := key{b.Axis, b.Quantity}
		if !seen[k] || b.Phase == "loop" {
			out = append(out, b)
		}
		seen[k] = true
	}
	return out
}

func (c Case) shortMotors() []string {
	var out []string
	for _, a := range torque.Examine(c.Plan) {
		if a.Level == torque.Short {
			out = append(out, a.Name)
		}
	}
	return out
}

func motorsOf(axes []string) string {
	if len(axes) == 1 {
		return "the motor of " + axes[0] + " has"
	}
	return "the motors of " + strings.Join(axes, " and ") + " have"
}

// lead says what does hold of a plan that may be driven, without its full stop.
func (c Case) lead(verdicts []picture.Verdict) string {
	switch {
	case c.Plan.Back > 0:
		return "The loop is cut back at its seam, as the shot asks, and the rig can do it"
	case opens(verdicts):
		return "The axes come round as they set out, and the rig can do it"
	}
	return "The loop closes and the rig can do it"
}

// opens tells whether something beside the axes is not known to come round as it
// set out.
func opens(verdicts []picture.Verdict) bool {
	for _, v := range verdicts {
		if (v.Level == picture.Poor || v.Level == picture.Unknown) && (strings.HasPrefix(v.Check, ClosingOf) || strings.HasPrefix(v.Check, leavingOf)) {
			return true
		}
	}
	return false
}

// failing names what fails, after what does not.
func failing(lead string, fails []string) string {
	return lead + "; but " + plain.Count(len(fails), "point") + " will not do: " + strings.Join(fails, ", ") + "."
}

// besides names what fails as well in a plan that must not be driven anyway.
func besides(fails []string) string {
	if len(fails) == 0 {
		return ""
	}
	return " Besides, " + plain.Count(len(fails), "point") + " will not do: " + strings.Join(fails, ", ") + "."
}

func unknown(what []string) string {
	if len(what) == 0 {
		return ""
	}
	return " Not known: " + strings.Join(what, ", ") + "."
}
