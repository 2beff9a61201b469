package portsreport_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/export/report"
	"seamrail/export/report/portsreport"
	"seamrail/motion/plan/sample"
)

func TestGolden(t *testing.T) {
	d := portsreport.Data{Ports: []portsreport.Port{{"/dev/ttyA0", "-", "-", "-"}, {"/dev/ttyB1", "12ab:00cd", "77", "Fernhollow bench board"}}}
	var text, doc strings.Builder
	require.NoError(t, report.Text(&text, d.Report(), false))
	require.NoError(t, report.JSON(&doc, d.Facts()))
	sample.Golden(t, "ports.txt", text.String())
	sample.Golden(t, "ports.json", doc.String())
}

// Where there is none, that is said, and how to go on without.
func TestNone(t *testing.T) {
	var text strings.Builder
	require.NoError(t, report.Text(&text, portsreport.Data{}.Report(), false))
	assert.Contains(t, text.String(), "no serial port here")
	assert.Contains(t, text.String(), "drive --virtual")
	assert.Equal(t, portsreport.Document{Schema: portsreport.Schema, Ports: []portsreport.Port{}}, portsreport.Data{}.Facts())
}
