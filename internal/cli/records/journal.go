package records

import (
	"brineyard/internal/cli/run"
)

var journalCommand = run.Command{
	Use:   "journal",
	Short: "Keep what happened, and sum up tanks, season and cleaning",
	Long: "The journal is one file that people and spreadsheets read. It is CSV, one row\n" +
		"an event, and rows are only added. It tells what stands in each tank. The\n" +
		"season's figures and the salt balance come from it.",
	Example: "  brineyard journal add batch --tank mixer --volume 1095gal --strength 23.4%\n" +
		"  brineyard journal season",
	Below: []run.Command{addCommand, listCommand, undoCommand, tanksCommand, seasonCommand, importCommand, verifyCommand, acceptCommand},
}
