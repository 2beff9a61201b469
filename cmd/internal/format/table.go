package format

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"seamrail/motion/base/list"
)

// table is every format there is, in the order of the folder that holds them all.
var table = slices.Concat(
	reportText,
	sheetPage,
	previewPicture, seamPicture,
	loopFigure,
	gcodeProgram, framesTable, stepsTable, ticksTable, scheduleTable, planJSON,
	pictureTable, pictureFigure,
	lightTable,
	aboveDrawing,
	cueFiles,
	selectsTable, otioTimeline, motionJSON, gltfScene,
)

// All returns every format, in the order of the folder.
func All() []Format { return slices.Clone(table) }

// Exports returns the formats that the export command writes, in its order.
func Exports() []Format {
	out := slices.DeleteFunc(All(), func(f Format) bool { return f.Export.Name == "" })
	slices.SortFunc(out, func(a, b Format) int { return cmp.Compare(a.Export.Place, b.Export.Place) })
	return out
}

// Names are what the export command calls its formats.
func Names() []string {
	return list.Map(Exports(), func(f Format) string { return f.Export.Name })
}

// Help is a line for each format that the export command writes.
func Help() string {
	var b strings.Builder
	for _, f := range Exports() {
		fmt.Fprintf(&b, "  %-7s %s\n", f.Export.Name, f.Export.Help)
	}
	return b.String()
}

// Named finds a format by what the export command calls it.
func Named(name string) (Format, error) {
	return find(name, func(f Format) string { return f.Export.Name })
}

// InFile finds a format by the name of its file in the folder.
func InFile(name string) (Format, error) {
	return find(name, func(f Format) string { return f.File })
}

func find(name string, by func(Format) string) (Format, error) {
	for _, f := range table {
		if name != "" && by(f) == name {
			return f, nil
		}
	}
	return Format{}, fmt.Errorf("there is nothing to export that is called %q; there are %s, and the files that make writes", name, strings.Join(Names(), ", "))
}
