/** Hops of every arrangement as a user writes them, with what the words of the arrangement ask for. */

export const CATALOGUE = `
radio R18S like R18 {
  sub-band A low 17.7 GHz to 18.2 GHz high 18.71 GHz up to 19.21 GHz
  sub-band B low 18.2 GHz to 18.69 GHz high 19.21 GHz up to 19.7 GHz
}
radio R18SO like R18S { construction all-outdoor; port GE }
radio R18SI like R18S { construction all-indoor; branching 0.7 dB pass 0.15 dB }
antenna DISH60-18-VH like DISH60-18 { polarizations dual }
coupler D18 { kind dual-polarized; main-loss 2 dB; standby-loss 6.8 dB }
coupler S18 { kind splitter; main-loss 1.6 dB; standby-loss 6.4 dB; transmit-loss 0.5 dB }
cable COAX { kind coaxial }
`;

/** What the words of an arrangement ask for at one end. */
export function wanted(name: string) {
  const indoor = name.startsWith("all-indoor");
  const [, carriers = "1", spare = "0"] = /(\d)\+(\d)/.exec(name) ?? [];
  const units = name.endsWith("four-units") ? 4 : Number(carriers) + Number(spare);
  const bothPolarizations = /xpic|dual-polarization/.test(name);
  const diversityAntennas = /two-antennas|space/.test(name);
  const shared =
    /hot-standby$|frequency-diversity$|single-polarization$/.test(name) && !/space-and/.test(name);
  const oneChannel = /hot-standby|1\+1 space-diversity|1\+1 xpic|dual-band/.test(name);
  return {
    units,
    antennas: diversityAntennas
      ? 2
      : bothPolarizations
        ? Math.ceil(units / 4)
        : shared && !indoor
          ? Math.ceil(units / 2)
          : 1,
    couplers: bothPolarizations ? Math.ceil(units / 4) : shared ? (indoor ? 1 : Math.ceil(units / 2)) : 0,
    further: /space/.test(name) ? "diversity-antenna" : undefined,
    coupler: bothPolarizations
      ? units === 2
        ? "O18"
        : "D18"
      : shared
        ? indoor
          ? "S18"
          : "H18-U"
        : undefined,
    cables: indoor ? 0 : units,
    radio: indoor ? "R18SI" : /all-outdoor|dual-band high/.test(name) ? "R18SO" : "R18S",
    antenna: bothPolarizations ? "DISH60-18-VH" : "DISH60-18",
    /** Channel of a unit, from 0. */
    channelOf: (unit: number) => (oneChannel ? 0 : /xpic/.test(name) ? Math.floor(unit / 2) : unit),
  };
}

export function textOf(name: string, channels: readonly number[], siteA: string, siteB: string): string {
  const { coupler, radio, antenna, antennas, couplers, further } = wanted(name);
  const places = ["second", "third", "fourth"];
  const more = [
    ...Array.from(
      { length: antennas - 1 },
      (_, i) => `${further ?? `${places[i]}-antenna`} ${antenna} at ${38 - i} m`,
    ),
    ...Array.from({ length: Math.max(0, couplers - 1) }, (_, i) => `${places[i]}-coupler ${coupler} direct`),
  ].map((line) => `\n    ${line}`);
  const end = (half: string) =>
    `antenna ${antenna} at 40 m\n    transmits ${half}\n    cable COAX length 40 m${coupler ? `\n    coupler ${coupler} direct` : ""}${more.join("")}`;
  return `
hop ${siteA}-${siteB} {
${channels.map((number) => `  channel P18 / 55 MHz / ${number}`).join("\n")}
  polarization vertical
  arrangement ${name}
  radio ${radio}
  mode 55 MHz 128QAM
  ${siteA} {
    ${end("high")}
  }
  ${siteB} {
    ${end("low")}
  }
}`;
}
