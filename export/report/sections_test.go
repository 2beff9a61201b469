package report_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"seamrail/export/report"
)

// parts is a report of two axes and what is told beside them.
func parts() report.Report {
	var r report.Report
	r.Headline(report.Good, "READY", "It closes.")
	r.Section("WHAT IT TAKES")
	r.Field("time", "6 s")
	for _, axis := range []string{"rail", "Pan head"} {
		r.Member(axis, "axes", axis+", AN AXIS")
		r.Field("speed", "1 mm/s")
	}
	r.Named("later", "NOTHING YET")
	return r
}

func TestSectionsAreAskedForByWords(t *testing.T) {
	r := parts()
	assert.Equal(t, []string{"what-it-takes", "rail", "pan-head"}, r.Names(), "one without blocks is not there")
	assert.Equal(t, []string{"axes"}, r.Groups())
	for typed, want := range map[string]string{"AFTER-SHAKE": "after-shake", "other_checks": "other-checks", "2 Loops, best first": "2-loops-best-first", "": ""} {
		assert.Equal(t, want, report.Word(typed))
	}
	assert.Equal(t, []string{"pan-head"}, r.Only("pan-head").Names())
	assert.Equal(t, []string{"rail", "pan-head"}, r.Only("axes").Names())
	assert.Len(t, r.Only("axes").Sections, 3, "the headline stays")
	assert.Len(t, r.Sections, 5, "and the report is as it was")
}
