package drill

import "brineyard/internal/quantity"

// slip is a wrong method by name.
type slip struct{ name, explain string }

// to is the mistake with the answer that the method leads to.
func (s slip) to(answer quantity.Quantity) Mistake { return Mistake{s.name, s.explain, answer} }

// The wrong methods.
var (
	byVolume = slip{"by volume",
		"Percent of salt is by weight, so weights have to be balanced, and brine weighs more than as much water."}
	noTemperature = slip{"temperature forgotten",
		"You took the reading for the strength, though the brine was not as warm as the glass is marked for."}
	wrongWay = slip{"temperature the wrong way",
		"You corrected the reading the wrong way: cold brine is denser and reads too high, warm brine reads too low."}
	ofVolume = slip{"percent of the volume",
		"You took the missing or surplus percent of the tank's volume, but the sum has to go by the weights of brine and salt."}
	ofOldStrength = slip{"over the old strength",
		"You divided the surplus by the strength that the brine has now; its salt has to suffice for the strength that is wanted."}
	overflowOnly = slip{"drew off the overflow",
		"You drew off what would run over after the water; what is drawn off before takes salt with it and needs less water too."}
	noDrawOff = slip{"nothing drawn off",
		"You added water for the whole tank, though part of the brine has to be drawn off before it fits."}
	asWater = slip{"brine weighed as water",
		"You weighed the brine with the density of water, but salt makes it heavier."}
	ownWeight = slip{"salt's own weight forgotten",
		"You left out that the salt becomes brine as well and has to be brought up to strength with the rest."}
	asPure = slip{"salt taken for pure",
		"You took the rock salt for pure and dry; what is dirt or water in it adds no strength."}
	noHeel = slip{"heel forgotten",
		"You worked out the batch for an empty tank, but the heel brings salt and water of its own."}
	heelOnTarget = slip{"heel taken as on target",
		"You worked out the volume above the heel alone, but the heel is weak and has to be strengthened with it."}
	ofWater = slip{"percent of the water",
		"You took the percentage of the water's weight; it is a share of the weight of the brine, salt counted."}
	onTop = slip{"salt on top of the water",
		"You filled the whole room with water and put salt on top, which makes more brine than was wanted."}
	saltRoom = slip{"salt takes no room",
		"You filled the whole room above the heel with water, but the salt takes up room as it dissolves."}
	noBucket = slip{"bucket forgotten",
		"You left out the bucket that is in the tank already."}
	plainMean = slip{"plain average",
		"You averaged the two strengths as if there were the same amount of each."}
	otherDensity = slip{"density of the other liquid",
		"You turned the weight into a volume with the density of the other liquid."}
	swapped = slip{"shares swapped",
		"You gave each liquid the other one's share."}
	notDiluted = slip{"dilution forgotten",
		"You gave the blend the strength of the brine alone, but the other liquid dilutes its salt."}
	tankFilled = slip{"gross limit ignored",
		"You filled the tank, but the whole truck is then over its gross limit."}
	noTruck = slip{"empty truck forgotten",
		"You gave the whole gross limit to the brine, but the truck itself weighs part of it."}
	noGear = slip{"gear forgotten",
		"You left out what the truck carries besides, which counts within the gross limit."}
	weightAlone = slip{"tank size ignored",
		"You went by weight alone, but the tank is full before the limit is reached."}
	wrongSide = slip{"wrong side of the pump",
		"You took one side of the pump for the other: suction valves lead to it, discharge valves away from it."}
	wrongPlace = slip{"wrong place",
		"That valve is on the right side of the pump, but it joins another place than the one asked for."}
	shutWanted = slip{"shut the one wanted",
		"You shut a valve that the job needs and left open the one that should not be."}
	halfChecked = slip{"one side looked at",
		"You looked at one way through the pump and found it in order; each valve that is open on both sides counts."}
)
