package show

// The cautions of the trade, each shown where its work comes up. Local codes and
// licensed practice come first in all of them.
const (
	CautionPump = "Open the suction and the outlet before the pump starts; never run it dry or against a closed valve. " +
		"Lock it out before opening it."
	CautionBackflow = "Where fresh water meets brine, fill through an air gap or a backflow preventer, as local code requires."
	CautionEntry    = "Enter no tank without a confined-space permit."
	CautionDrain    = "Brine, salt and sludge stay out of drains and soil; follow local rules."
	CautionChloride = "Calcium and magnesium chloride heat up in water and burn skin and eyes: gloves, goggles, wash water at hand."
	CautionLocal    = "Local codes and licensed practice come before anything printed here."
)
