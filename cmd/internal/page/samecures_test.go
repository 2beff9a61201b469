package page

import (
	"bytes"
	"encoding/json"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/cmd/internal/format"
	"seamrail/cmd/internal/starter/kinds"
	"seamrail/motion/plan/sample/many"
)

// checksIn calls f with each check that a report tells of, wherever in it.
func checksIn(v any, f func(name string, cures []string)) {
	switch x := v.(type) {
	case []any:
		for _, y := range x {
			checksIn(y, f)
		}
	case map[string]any:
		name, named := x["check"].(string)
		if cures, ok := x["cures"].([]any); ok && named {
			f(name, listOf(cures, func(c any) string { return c.(string) }))
		}
		for _, y := range x {
			checksIn(y, f)
		}
	}
}

// reportOf is the report of a text, also of one that must not be driven.
func reportOf(t *testing.T, d *desk, text string) any {
	t.Helper()
	p, err := d.foretold(t.Context(), text)
	require.NoError(t, err)
	of, err := d.toWrite(p)
	require.NoError(t, err)
	f, err := format.Named("json")
	require.NoError(t, err)
	var b bytes.Buffer
	require.NoError(t, f.Write(of, &b))
	var report any
	require.NoError(t, json.Unmarshal(b.Bytes(), &report))
	return report
}

// What the report offers as cures of a check is what the page offers, cure by cure: as a
// button, or marked as one for a hand.
func TestThePageOffersWhatTheReportOffers(t *testing.T) {
	offered := 0
	for n, k := range kinds.All() {
		d, text := bedside(t, k)
		for i, ail := range ailments {
			if !many.Asked() && i%6 != n%6 { // the next kind is tried with others
				continue
			}
			ill := d.answer(t.Context(), question{Text: text, Edits: typed(ail)})
			if ill.View == nil {
				continue
			}
			report := reportOf(t, d, ill.Text)
			checksIn(report, func(name string, cures []string) {
				if len(cures) == 0 {
					return
				}
				at := slices.IndexFunc(ill.View.Verdicts, func(v Verdict) bool { return v.Name == name })
				if !assert.GreaterOrEqual(t, at, 0, "%s %v: %s", k.Name, ail, name) {
					return
				}
				for _, c := range cures {
					offered++
					fit := slices.IndexFunc(ill.View.Verdicts[at].Fits, func(f Fit) bool { return f.Text == c })
					if assert.GreaterOrEqual(t, fit, 0, "%s %v: %s: %s", k.Name, ail, name, c) {
						f := ill.View.Verdicts[at].Fits[fit]
						assert.True(t, len(f.Edits) > 0 || f.Hand, "%s: %s", name, c)
					}
				}
			})
		}
	}
	assert.Greater(t, offered, 20, "so many were looked at")
	t.Log(offered)
}
