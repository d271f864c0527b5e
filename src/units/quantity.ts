/**
 * Numbers that know their unit, so that the compiler refuses a psi where a bar is meant. At run time they are plain
 * numbers. The project counts in bar (gauge unless a name says abs), °C, mm, litres, seconds; physics in SI.
 */
declare const UNIT: unique symbol;
export type Quantity<U extends string> = number & { readonly [UNIT]: U };

export type Bar = Quantity<'bar'>;
export type Pascal = Quantity<'Pa'>;
export type Kilopascal = Quantity<'kPa'>;
export type Psi = Quantity<'psi'>;
export type Celsius = Quantity<'°C'>;
export type Fahrenheit = Quantity<'°F'>;
export type Kelvin = Quantity<'K'>;
export type Millimetre = Quantity<'mm'>;
export type Inch = Quantity<'in'>;
export type Litre = Quantity<'L'>;
export type CubicMetre = Quantity<'m³'>;

/** Says which unit a plain number is in. */
export const bar = (v: number) => v as Bar;
export const pascal = (v: number) => v as Pascal;
export const kilopascal = (v: number) => v as Kilopascal;
export const psi = (v: number) => v as Psi;
export const celsius = (v: number) => v as Celsius;
export const fahrenheit = (v: number) => v as Fahrenheit;
export const kelvin = (v: number) => v as Kelvin;
export const millimetre = (v: number) => v as Millimetre;
export const inch = (v: number) => v as Inch;
export const litre = (v: number) => v as Litre;
export const cubicMetre = (v: number) => v as CubicMetre;

/** Pa in one bar (exact, SI brochure) and in one standard atmosphere (exact). */
export const PA_PER_BAR = 100_000;
export const PA_PER_ATM = 101_325;
/** Pa in one psi: one pound-force (0.45359237 kg · 9.80665 m/s²) on a square inch (0.0254 m)², all exact. */
export const PA_PER_PSI = (0.453_592_37 * 9.806_65) / (0.0254 * 0.0254);
/** mm in one inch (exact since 1959). */
export const MM_PER_INCH = 25.4;
/** 0 °C in K (exact). */
export const ZERO_C_IN_K = 273.15;

export const barToPascal = (v: Bar): Pascal => pascal(v * PA_PER_BAR);
export const pascalToBar = (v: Pascal): Bar => bar(v / PA_PER_BAR);
export const barToKilopascal = (v: Bar): Kilopascal => kilopascal(v * 100);
export const kilopascalToBar = (v: Kilopascal): Bar => bar(v / 100);
export const barToPsi = (v: Bar): Psi => psi((v * PA_PER_BAR) / PA_PER_PSI);
export const psiToBar = (v: Psi): Bar => bar((v * PA_PER_PSI) / PA_PER_BAR);
export const celsiusToKelvin = (v: Celsius): Kelvin => kelvin(v + ZERO_C_IN_K);
export const kelvinToCelsius = (v: Kelvin): Celsius => celsius(v - ZERO_C_IN_K);
export const celsiusToFahrenheit = (v: Celsius): Fahrenheit => fahrenheit(v * 1.8 + 32);
export const fahrenheitToCelsius = (v: Fahrenheit): Celsius => celsius((v - 32) / 1.8);
export const millimetreToInch = (v: Millimetre): Inch => inch(v / MM_PER_INCH);
export const inchToMillimetre = (v: Inch): Millimetre => millimetre(v * MM_PER_INCH);
export const litreToCubicMetre = (v: Litre): CubicMetre => cubicMetre(v / 1000);
export const cubicMetreToLitre = (v: CubicMetre): Litre => litre(v * 1000);
