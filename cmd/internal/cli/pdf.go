package cli

import (
	"time"

	"codeberg.org/go-pdf/fpdf"
)

// undated makes the same PDF from the same plan, to the byte: a PDF wants dates and
// takes the hour else, and the library goes through its own tables as they come.
// What is told is the beginning of Unix time, as by the convention of reproducible
// builds; when a file was made its folder knows.
func undated() {
	fpdf.SetDefaultCreationDate(time.Unix(0, 0).UTC())
	fpdf.SetDefaultModificationDate(time.Unix(0, 0).UTC())
	fpdf.SetDefaultCatalogSort(true)
}
