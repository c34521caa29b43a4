package records

import "brineyard/internal/journal"

// entryKind is a kind of entry that people record.
type entryKind struct {
	name             journal.Kind
	short            string
	example, another string
	needs            []string // flags
	takes            []value  // besides those that every kind takes
}

// line is the command line that adds an entry.
func (k entryKind) line(flags string) string {
	return "brineyard journal add " + string(k.name) + " " + flags
}

var entryKinds = []entryKind{
	{journal.Batch, "A batch was made: what the mixing tank then holds",
		"--tank mixer --volume 1095gal --strength 23.4%", "--tank mixer --salt 2650lb --water 982gal",
		[]string{"tank"}, []value{tankFlag, volumeFlag, strengthFlag, cacl2Flag, mgcl2Flag, kclFlag, saltFlag, waterFlag, ranFlag}},
	{journal.Reading, "An instrument was read in a tank",
		"--tank mixer --hydrometer 23.9% --temp 41F", "--tank mixer --sg 1.178 --temp 12C",
		[]string{"tank"}, []value{tankFlag, readingFlags}},
	{journal.Correction, "Water, salt or brine went into a tank to correct it",
		"--tank mixer --water 40gal", "--tank north --volume 300gal --strength 26%",
		[]string{"tank"}, []value{tankFlag, waterFlag, saltFlag, volumeFlag, strengthFlag, liquidFlag, fromFlag}},
	{journal.Transfer, "A volume went from one tank into another",
		"--from mixer --to north --volume 1095gal", "--from north --to tote --volume 90L --line S2",
		[]string{"from", "to", "volume"}, []value{fromFlag, toFlag, volumeFlag, lineFlag}},
	{journal.Load, "A truck was loaded with brine, dry salt or both",
		"--from north --volume 487gal --route ridge-road", "--salt 3ton --from south --volume 27gal",
		nil, []value{fromFlag, truckFlag, routeFlag, volumeFlag, liquidFlag, saltFlag, lineFlag}},
	{journal.Unload, "A truck gave back what it had not laid",
		"--truck big-sprayer --to north --volume 310gal", "--truck lot-pickup --to tote --volume 200L",
		[]string{"truck", "to", "volume"}, []value{truckFlag, toFlag, volumeFlag}},
	{journal.Delivery, "Salt or a liquid was delivered",
		"--salt 25ton --cost 1790 --ticket W-4471", "--tank south --liquid cal31 --volume 1500gal",
		nil, []value{saltFlag, tankFlag, liquidFlag, volumeFlag, strengthFlag, cacl2Flag, mgcl2Flag, kclFlag, purityFlag, moistureFlag, ticketFlag, costFlag}},
	{journal.Order, "Salt or a liquid was ordered, and is due",
		"--salt 25ton --due 2027-12-20", "--liquid cal31 --volume 1500gal --due 2027-12-20",
		[]string{"due"}, []value{saltFlag, liquidFlag, volumeFlag, dueFlag}},
	gone(journal.Spill, "Salt or a liquid was lost on the ground", "--from north --volume 60gal", "--salt 400lb"),
	gone(journal.Sale, "Salt or a liquid was sold", "--from north --volume 500gal --cost 110", "--liquid larch-acetate --volume 20gal --cost 95"),
	gone(journal.Loan, "Salt or a liquid was lent", "--salt 5ton", "--from north --volume 2kL"),
	gone(journal.Gift, "Salt or a liquid was given away", "--salt 1ton", "--from south --volume 50gal"),
	{journal.Clean, "A tank was emptied and cleaned",
		"--tank mixer", "--tank mixer --note \"sludge to the pad\"",
		[]string{"tank"}, []value{tankFlag, costFlag}},
	{journal.Rinse, "A line was rinsed, and holds weak brine until it is used",
		"--line suction-header", "--line pressure-header --water 30gal --tank tote",
		[]string{"line"}, []value{lineFlag, waterFlag, tankFlag}},
	{journal.Count, "A tank, its bed, a truck, a liquid or the pile was measured",
		"--tank north --volume 3450gal", "--tank pile --salt 38ton",
		nil, []value{tankFlag, truckFlag, volumeFlag, depthFlag, strengthFlag, liquidFlag, cacl2Flag, mgcl2Flag, kclFlag, saltFlag}},
	{journal.Work, "Hours were worked, a distance was driven, or both",
		"--hours 6.5h --distance 84mi --truck big-sprayer", "--hours 3h --operator Ash",
		nil, []value{hoursFlag, distanceFlag, truckFlag, routeFlag, costFlag}},
	{journal.Note, "Anything else",
		"--note \"valve F3 drips\"", "--note \"first flake\" --tank mixer",
		[]string{"note"}, []value{tankFlag}},
}

// gone is a kind of what left the yard otherwise than on the road.
func gone(name journal.Kind, short, example, another string) entryKind {
	return entryKind{name, short, example, another, nil, []value{saltFlag, fromFlag, liquidFlag, volumeFlag, costFlag}}
}
