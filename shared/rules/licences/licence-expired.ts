import { daysBetween, daysLater } from "../../design/day.js";
import { type Licence, NOTICE_DAYS } from "../../design/licence.js";
import { trimmed } from "../../format/numbers.js";
import { licenceName } from "../../licence/words.js";
import type { NetworkContext, NetworkRule } from "../rule.js";
import { licensedHop } from "./example-licence.js";

export const licenceExpired: NetworkRule = {
  scope: "network",
  id: "licence-expired",
  severity: "error",
  title: "A licence holds while its hop stands",
  checks:
    "The last day of each licence that a hop rests on against today's date, and its first day against the day that is looked at. Of two licences for the same the one that is in force counts.",
  why: "After its last day the transmitter is on the air without a licence, and the frequency may be given to somebody else.",
  fix: "Have it renewed, and write the new last day or a licence with the new number beside it.",
  source: "common practice",
  good: licensedHop("frequency 18.93 GHz"),
  bad: licensedHop("frequency 18.93 GHz", { until: "2001-01-01" }),
  check({ licences, licencesOn, report }) {
    const { today, on } = licencesOn;
    for (const { hop, licence, site } of inUse(licences)) {
      const about = `${licence.number} ${hop} ${site}`;
      const { until, since } = licence;
      if (since !== undefined && until !== undefined && until < since) {
        const message = `${licenceName(licence)} ends on ${until}, before it begins on ${since}`;
        report({ at: `${licence.at} / until`, about, message, help: "mend one of the two days" }, hop);
      } else if (until !== undefined && until < today) {
        const message = `${licenceName(licence)} for ${site} of ${hop} ended on ${until}`;
        report(
          {
            at: `${licence.at} / until`,
            about,
            message,
            help: "have it renewed, and write what was granted",
          },
          hop,
        );
      } else if (since !== undefined && since > on) {
        const message = `${licenceName(licence)} for ${site} of ${hop} begins on ${since}; the hop stands before`;
        report({ at: `${licence.at} / since`, about, message, help: "let the hop stand from then on" }, hop);
      }
    }
  },
};

export const licenceExpires: NetworkRule = {
  scope: "network",
  id: "licence-expires",
  severity: "warning",
  title: "A licence is renewed before it ends",
  checks: `Whether the last day of a licence that a hop rests on is within ${NOTICE_DAYS} days of today, or within the notice that \`licences\` of the network states. One that another in force takes over from is not told.`,
  why: "An application takes its time, and some administrations take none behind the last day.",
  fix: "Apply for the renewal, and write the new last day once it is granted.",
  source: `common practice; the ${NOTICE_DAYS} days are ours, no source`,
  good: licensedHop("frequency 18.93 GHz"),
  bad: licensedHop("frequency 18.93 GHz", {
    network: "licences stated notice 3650000 d",
  }),
  check({ design, licences, licencesOn: { today }, report }) {
    const notice = design.licenceTerms?.noticeDays ?? NOTICE_DAYS;
    const soon = daysLater(today, notice);
    for (const { hop, licence, site } of inUse(licences)) {
      const { until } = licence;
      if (until === undefined || until < today || until > soon) continue;
      if (isFollowed(licence, design.licences ?? [])) continue;
      const message = `${licenceName(licence)} for ${site} of ${hop} ends on ${until}, within ${trimmed(notice, 1)} days`;
      const about = `${licence.number} ${hop} ${site}`;
      report({ at: `${licence.at} / until`, about, message, help: "apply for its renewal" }, hop);
    }
  },
};

/** The day that follows is one of another licence for the same end. */
function isFollowed({ hop, site, until }: Licence, all: readonly Licence[]): boolean {
  return all.some(
    (other) =>
      other.hop === hop &&
      other.site === site &&
      other.until !== until &&
      daysBetween(until!, other.since ?? "9999-12-31") <= 1 &&
      (other.until === undefined || other.until > until!),
  );
}

function* inUse(licences: NetworkContext["licences"]) {
  for (const [hop, { held }] of licences)
    for (const { licence, sent } of held) if (licence !== undefined) yield { hop, licence, site: sent.site };
}
