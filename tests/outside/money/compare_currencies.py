#!/usr/bin/env python3
"""Is the table of currencies that the tests read ISO 4217's list one, and have replaced currencies the decimals of the CLDR?

List one is the maintenance agency's XML in npm's currency-codes; the decimals of currencies that it no longer has are what node's
Intl.NumberFormat (Unicode CLDR, by way of ICU) shows. iso4217.json is what the program's own table is compared with.
"""
import json
import pathlib
import subprocess
import sys
import xml.etree.ElementTree as ET

HERE = pathlib.Path(__file__).resolve().parent
LIST_ONE = HERE.parent / "node_modules/currency-codes/iso-4217-list-one.xml"
ASK_NODE = """
const decimals = {};
for (const currency of process.argv.slice(1))
  decimals[currency] = new Intl.NumberFormat("en", {style: "currency", currency}).resolvedOptions().maximumFractionDigits;
console.log(JSON.stringify(decimals));
"""


def main():
    copied = json.loads((HERE / "iso4217.json").read_text())
    mine = {code: minor for minor, codes in copied["codes_by_minor_units"].items() for code in codes}
    root = ET.parse(LIST_ONE).getroot()
    theirs = {row.findtext("Ccy"): row.findtext("CcyMnrUnts") for row in root.iter("CcyNtry") if row.findtext("Ccy")}
    wrong = [f"{code}: {mine.get(code)}, list one has {theirs.get(code)}" for code in sorted(mine.keys() | theirs.keys())
             if mine.get(code) != theirs.get(code)]
    replaced = copied["decimals_of_replaced_currencies"]
    shown = json.loads(subprocess.run(["node", "-e", ASK_NODE, *replaced], check=True, capture_output=True, text=True).stdout)
    wrong += [f"{code}: {decimals}, the CLDR has {shown[code]}" for code, decimals in replaced.items() if decimals != shown[code]]
    for line in wrong:
        print(line)
    print(f"currencies: {len(theirs)} of list one published {root.get('Pblshd')}, {len(replaced)} replaced by the euro, {len(wrong)} wrong")
    return 1 if wrong or len(theirs) < 150 or len(replaced) < 20 else 0


if __name__ == "__main__":
    sys.exit(main())
