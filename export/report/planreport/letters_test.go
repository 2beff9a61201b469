package planreport_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"seamrail/export/report/planreport"
	"seamrail/motion/plan"
	"seamrail/motion/spec/rig"
)

// A letter that a plain board does not have is warned of, until the rig file
// says that this one has it. It is no danger to anyone.
func TestLettersThatABoardMayNotHave(t *testing.T) {
	warned := func(change func(c *rig.Controller)) string {
		p := &plan.Plan{Rig: rig.Rig{Controller: rig.Buffered.Defaults()}}
		p.Axes = []plan.Axis{{Rig: rig.Axis{Name: "rail", Letter: "X"}}, {Rig: rig.Axis{Name: "table", Letter: "A", Kind: rig.Rotary}}}
		change(&p.Rig.Controller)
		assert.NotContains(t, strings.Join(planreport.Dangers(p, nil), " "), "letter")
		return strings.Join(planreport.Cautions(p, nil), " ")
	}
	assert.Contains(t, warned(func(*rig.Controller) {}), "Axis table has the letter A.")
	assert.NotContains(t, warned(func(*rig.Controller) {}), "Axis rail has the letter")
	assert.NotContains(t, warned(func(c *rig.Controller) { c.Letters = "XYZA" }), "has the letter")
	assert.NotContains(t, warned(func(c *rig.Controller) { c.Kind = rig.Lockstep }), "has the letter")
}
