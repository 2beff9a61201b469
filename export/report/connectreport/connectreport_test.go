package connectreport_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/export/report"
	"seamrail/export/report/connectreport"
	"seamrail/motion/plan/sample"
	"seamrail/motion/spec/rig"
	"seamrail/motion/spec/rig/rigfile"
)

func data() connectreport.Data {
	b := rigfile.Board{
		From: "the controller at /dev/ttyB7", Kind: rig.Buffered, Because: []string{"it answers the status byte ? with a report"}, Baud: 115200,
		Greeting: "Bench ready", Said: []string{"[VER:of the bench]"}, State: "Idle", Reports: true, SettingsLine: "$$",
		Settings: map[string]float64{"$100": 80, "$110": 400, "$120": 0}, Blocks: 15, Bytes: 127,
	}
	return connectreport.Data{Board: b, Lines: rig.Marked("bench.toml", rigfile.File(b)), File: "bench.toml"}
}

func told(t *testing.T, d connectreport.Data) string {
	t.Helper()
	var text strings.Builder
	require.NoError(t, report.Text(&text, d.Report(), false))
	return text.String()
}

func TestGolden(t *testing.T) {
	d := data()
	var doc strings.Builder
	require.NoError(t, report.JSON(&doc, d.Facts()))
	sample.Golden(t, "connect.txt", told(t, d))
	sample.Golden(t, "connect.json", doc.String())
}

func TestAgainstAFile(t *testing.T) {
	d := data()
	d.File, d.Against = "", "old.toml"
	assert.Contains(t, told(t, d), "all that the controller tells is as the file says")
	assert.Contains(t, told(t, d), "no file was written")
	d.Differs = []rigfile.Difference{{Key: "axis.rail.steps", File: "40 per mm", Controller: "80 per mm", Line: 9}, {Key: "controller.baud", File: "9600", Controller: "115200"}}
	text := told(t, d)
	assert.Contains(t, text, "x old.toml:9: axis.rail.steps: the file says 40 per mm, the controller 80 per\n")
	assert.Contains(t, text, "x old.toml: controller.baud: the file says 9600, the controller 115200")
}
