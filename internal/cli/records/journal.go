package records

import (
	"brineyard/internal/cli/run"
)

var journalCommand = run.Command{
	Use:   "journal",
	Short: "Keep what happened, and sum up tanks, season and cleaning",
	Long: "The journal is one file that people and spreadsheets read: CSV, one row an\n" +
		"event, rows only ever added. From it come what stands in each tank, the season's\n" +
		"figures, the salt balance, and when a tank needs cleaning.",
	Example: "  brineyard journal add batch --tank mixer --volume 1095gal --strength 23.4%\n" +
		"  brineyard journal season",
	Below: []run.Command{addCommand, listCommand, undoCommand, tanksCommand, seasonCommand, importCommand, verifyCommand, acceptCommand},
}
