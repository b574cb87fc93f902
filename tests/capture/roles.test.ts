import { describe, expect, test } from "vitest";
import { conversionOf, toCanonical } from "../../src/capture/meaning/quantities.ts";
import { roleNamedBy } from "../../src/capture/meaning/roles.ts";

// Names as scanners, scopes and people write them; the words are the trade's (common practice). PT08.S1(CO) is a column of the
// UCI Machine Learning Repository's data set "Air Quality" (De Vito, 2016; CC BY 4.0): a sensor, and none of a car.
const names: readonly (readonly [name: string, unit: string, role: string, bank?: number])[] = [
  ["O2 B1S1", "V", "front-o2", 1],
  ["O2 Sensor 2 Bank 2 Voltage", "mV", "rear-o2", 2],
  ["B2S1", "V", "front-o2", 2],
  ["HO2S12", "", "rear-o2", 1],
  ["O2S21_V", "V", "front-o2", 2],
  ["Upstream O2", "V", "front-o2"],
  ["Post-cat oxygen sensor", "V", "rear-o2"],
  ["sensor 1", "V", "front-o2"],
  ["Lambdasonde vor Kat", "V", "front-o2"],
  ["Nachkat-Sonde", "mV", "rear-o2"],
  ["Spannung Lambdasonde 2", "V", "rear-o2"],
  ["Sonde amont", "V", "front-o2"],
  ["Sonda lambda posterior", "V", "rear-o2"],
  ["O2 v. Kat", "V", "front-o2"],
  ["O2 down", "mV", "rear-o2"],
  ["Lambdasonde voor kat", "V", "front-o2"],
  ["Zuurstofsensor na katalysator", "mV", "rear-o2"],
  ["Luchtmassa", "g/s", "air-flow"],
  ["Koelvloeistoftemperatuur", "°C", "coolant-temp"],
  ["Lambda B1S1", "", "front-lambda", 1],
  ["Equivalence ratio sensor 1", "1", "front-lambda"],
  ["Wideband AFR front", "AFR", "front-lambda"],
  ["AFR B2", "", "front-lambda", 2],
  ["O2 Sensor 22", "", "rear-o2", 2],
  ["Regelsonde", "", "front-o2"],
  ["Monitorsonde", "mV", "rear-o2"],
  ["Regelsonde", "mA", "front-lambda"],
  ["Vehicle Spd", "km/h", "road-speed"],
  ["n", "1/min", "engine-speed"],
  ["n", "", "other"],
  ["Pressure sensor 11", "kPa", "other"],
  ["A/F B1S1", "", "front-lambda", 1],
  ["Lambda B1S2", "1", "other"],
  ["PT08.S1(CO)", "", "other"],
  ["Commanded equivalence ratio", "1", "other"],
  ["Short term fuel trim bank 1 sensor 1", "%", "short-trim", 1],
  ["STFT B2", "%", "short-trim", 2],
  ["LONGFT1", "%", "long-trim"],
  ["ShortFT1", "%", "short-trim"],
  ["Fuel trim O2 sensor 1 short term", "%", "short-trim"],
  ["O2 heater current B1S1", "A", "other"],
  ["O2 B1S3", "V", "other"],
  ["Coolant temperature sensor 1", "°C", "coolant-temp"],
  ["T° liquide", "°C", "coolant-temp"],
  ["Température du liquide", "", "coolant-temp"],
  ["Liquide de refroidissement", "°C", "coolant-temp"],
  ["Temperatura liquido", "°C", "coolant-temp"],
  ["T° d'eau", "°C", "coolant-temp"],
  ["Temp. liquide de frein", "°C", "other"],
  ["Température liquide boîte", "°C", "other"],
  ["Niveau liquide de refroidissement", "", "other"],
  ["Débit liquide de refroidissement", "", "other"],
  ["Niveau d'huile", "", "other"],
  ["Knock sensor 1", "V", "other"],
  ["Wheel speed rear left", "km/h", "other"],
  ["Vehicle speed", "mph", "road-speed"],
  ["Engine RPM", "", "engine-speed"],
  ["Speed of engine", "", "engine-speed"],
  ["Motordrehzahl", "U/min", "engine-speed"],
  ["Absolute throttle position", "%", "throttle"],
  ["Drosselklappe", "%", "throttle"],
  ["Commanded throttle", "%", "other"],
  ["MAF", "g/s", "air-flow"],
  ["MAF sensor voltage", "V", "other"],
  ["Luftmasse", "kg/h", "air-flow"],
  ["Catalyst temp B1S1", "°C", "catalyst-temp", 1],
  ["Fuel system 1 status", "", "fuel-status"],
  ["Fuel pressure", "kPa", "other"],
  ["Calculated load", "%", "engine-load"],
  ["MAP", "kPa", "manifold-pressure"],
  ["Intake air temperature", "°C", "other"],
  ["Battery voltage", "V", "other"],
  // What stands beside the sensors, in the words of workshops; from memory.
  ["Débit massique d'air", "kg/h", "air-flow"],
  ["Temperatura del agua", "°C", "coolant-temp"],
  ["Ajuste de combustible a corto plazo", "%", "short-trim"],
  ["Sonda O2 posteriore", "mV", "rear-o2"],
  ["Giri motore", "giri/min", "engine-speed"],
  ["Massa aria aspirata", "kg/h", "air-flow"],
  ["Pressione collettore", "mbar", "manifold-pressure"],
  ["Correzione carburante lungo termine", "%", "long-trim"],
  ["Temperatura olio motore", "°C", "other"],
  ["Pressione carburante", "bar", "other"],
  ["Stato pompa carburante", "", "other"],
  ["Sonda pós-catalisador", "V", "rear-o2"],
  ["Sonda antes do catalisador", "V", "front-o2"],
  ["Rotação", "rpm", "engine-speed"],
  ["Posição da borboleta", "%", "throttle"],
  ["Posição do pedal do acelerador", "%", "other"],
  ["Temperatura do líquido de arrefecimento", "°C", "coolant-temp"],
  ["Ajuste de combustível curto prazo", "%", "short-trim"],
  ["Rotação da ventoinha", "rpm", "other"],
  ["Napięcie sondy przed kat.", "V", "front-o2"],
  ["Napięcie sondy za katalizatorem", "V", "rear-o2"],
  ["Prędkość obrotowa silnika", "obr/min", "engine-speed"],
  ["Prędkość pojazdu", "km/h", "road-speed"],
  ["Położenie przepustnicy", "%", "throttle"],
  ["Przepływ powietrza", "g/s", "air-flow"],
  ["Temperatura płynu chłodzącego", "°C", "coolant-temp"],
  ["Korekta długoterminowa", "%", "long-trim"],
  ["Napięcie akumulatora", "V", "other"],
  ["Prędkość koła", "km/h", "other"],
  ["Smoorklepstand", "%", "throttle"],
  ["Brandstofcorrectie korte termijn", "%", "short-trim"],
  ["Inlaatspruitstukdruk", "kPa", "manifold-pressure"],
  ["Gewenst toerental", "1/min", "other"],
];

describe("roles from names", () => {
  test.each(names.map(([name, unit, role, bank]) => ({ name, unit, role, bank })))(
    "$name [$unit] is $role",
    ({ name, unit, role, bank }) => {
      const part = roleNamedBy(name, unit);
      expect(part.role).toBe(role);
      if (bank !== undefined) expect(part.bank).toBe(bank);
    },
  );
});

describe("units in any spelling", () => {
  // NIST SP 811, appendix B: lb 0.45359237 kg, mile 1609.344 m, psi 6.894757 kPa, inHg 3.386389 kPa, Fahrenheit.
  test.each([
    ["mV", 450, "V", 0.45],
    ["[mV]", 9, "V", 0.009],
    ["U/min", 800, "1/min", 800],
    ["min⁻¹", 800, "1/min", 800],
    ["kg/h", 36, "g/s", 10],
    ["lb/min", 1, "g/s", 7.5598728],
    ["mph", 60, "km/h", 96.56064],
    ["m/s", 10, "km/h", 36],
    ["°F", 212, "degC", 100],
    ["℃", 85, "degC", 85],
    ["K", 373.15, "degC", 100],
    ["psi", 14.5037738, "kPa", 100],
    ["inHg", 29.92126, "kPa", 101.325],
    ["mbar", 1013.25, "kPa", 101.325],
    ["bar", 1, "kPa", 100],
    ["µs", 5, "s", 0.000005],
    ["A", 0.5, "mA", 500],
  ])("%s", (unit, written, canonical, value) => {
    const conversion = conversionOf(unit);
    expect(conversion.unit).toBe(canonical);
    expect(toCanonical(written, conversion)).toBeCloseTo(value, 4);
  });

  test("an unknown unit is kept as it is", () => {
    expect(conversionOf(" °KW ")).toMatchObject({ unit: "°KW", known: false });
    expect(toCanonical(3, conversionOf("furlong"))).toBe(3);
  });
});
