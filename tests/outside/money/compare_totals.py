#!/usr/bin/env python3
"""Does the ledger of 10,000 purchases in five currencies agree with Python's decimal, and do quartiles with its statistics?

    compare_totals.py PROGRAM KB

The shelf is made here from a fixed seed. Amounts are added and converted by decimal.Decimal; purchases of several things are shared out
by largest remainders in whole numbers; quartiles are statistics.quantiles of fractions, method "inclusive", which is definition 7 of
Hyndman and Fan. What the program writes must be equal to the last digit.
"""
import collections
import datetime
import decimal
import fractions
import json
import pathlib
import random
import statistics
import subprocess
import sys
import tempfile

SEED = 20020101
PURCHASES = 10_000
DECIMALS = {"GBP": 2, "EUR": 2, "USD": 2, "JPY": 0, "KWD": 3}
HOME = "GBP"
OUTLAYS = ["price", "fees", "shipping", "insurance", "duty", "tax"]
ROUNDINGS = {"half-up": decimal.ROUND_HALF_UP, "half-even": decimal.ROUND_HALF_EVEN, "up": decimal.ROUND_UP, "down": decimal.ROUND_DOWN}
ISSUE = "keeper-maren/painted-buttons"
FIRST = datetime.date(2015, 1, 1)
decimal.getcontext().prec = 60


def in_currency(number, currency, rounding):
    return number.quantize(decimal.Decimal(1).scaleb(-DECIMALS[currency]), rounding=ROUNDINGS[rounding])


def amount(dice, currency):
    return decimal.Decimal(dice.randrange(1, 10 ** dice.randrange(2, 7))).scaleb(-DECIMALS[currency])


def any_day(dice):
    return FIRST + datetime.timedelta(days=dice.randrange(4000))


class Shelf:
    """What is written to the file, and the same for arithmetic."""

    def __init__(self, dice):
        self.toml = [f'[shelf]\nname = "ten thousand"\nhome = "{HOME}"\n']
        self.rates = collections.defaultdict(list)  # by currency: (day, one, is, rounding), by day
        for currency in DECIMALS:
            if currency != HOME:
                for days in range(-1, 4000, 97):
                    self.add_rate(dice, currency, FIRST + datetime.timedelta(days=days))
        self.purchases = [self.add_purchase(dice, number) for number in range(PURCHASES)]
        self.sales = [self.add_sale(dice) for _ in range(400)]

    def add_rate(self, dice, currency, day):
        other_way = dice.random() < 0.3
        one, of = (currency, HOME) if other_way else (HOME, currency)
        price = decimal.Decimal(dice.randrange(1, 3_000_000)).scaleb(-dice.randrange(2, 7))
        rounding = dice.choice(list(ROUNDINGS))
        self.rates[currency].append((day, one, price, rounding))
        self.toml.append(f'[[rate]]\none = "{one}"\nis = "{price:f}"\nof = "{of}"\non = "{day}"\nsource = "made"\nrounding = "{rounding}"\n')

    def add_purchase(self, dice, number):
        day = any_day(dice)
        seller = f"seller {dice.randrange(200)}"
        outlays = [(outlay, currency, amount(dice, currency)) for outlay in OUTLAYS if dice.random() < 0.5
                   for currency in [dice.choice(list(DECIMALS))]]
        lines = "".join(f'{outlay} = "{value:f} {currency}"\n' for outlay, currency, value in outlays)
        self.toml.append(f'[[purchase]]\nid = "p-{number}"\nseller = "{seller}"\npaid = "{day}"\n{lines}')
        pieces = [(f"piece-{number}-{i}", dice.randrange(1, 6)) for i in range(dice.choice([0, 1, 1, 2, 3]))]
        for piece, share in pieces:
            self.toml.append(f'[[piece]]\nid = "{piece}"\nissue = "{ISSUE}"\npurchase = "p-{number}"\nshare = {share}\n')
        return {"id": f"p-{number}", "day": day, "seller": seller, "outlays": outlays, "pieces": pieces}

    def add_sale(self, dice):
        currency = dice.choice(list(DECIMALS))
        sale = {"day": any_day(dice), "currency": currency, "price": amount(dice, currency),
                "complete": dice.choice(["sealed", "complete", "incomplete", "bare"]), "condition": f"C{dice.randrange(1, 11)}"}
        self.toml.append(f'[[sale]]\non = "{sale["day"]}"\nprice = "{sale["price"]:f} {currency}"\nissue = "{ISSUE}"\n'
                         f'complete = "{sale["complete"]}"\ncondition = "{sale["condition"]}"\n')
        return sale

    def at_home(self, currency, value, day):
        if currency == HOME:
            return value
        _, one, price, rounding = [rate for rate in self.rates[currency] if rate[0] <= day][-1]
        # Of 60 digits a quotient of such numbers is exact, or as far from every half as its rounding needs.
        return in_currency(value / price if one == HOME else value * price, HOME, rounding)


def shared(total, weights, decimals):
    units = int(total.scaleb(decimals))
    parts = [units * weight // sum(weights) for weight in weights]
    remainders = [units * weight % sum(weights) for weight in weights]
    for place in sorted(range(len(weights)), key=lambda i: (-remainders[i], i))[:units - sum(parts)]:
        parts[place] += 1
    return [decimal.Decimal(part).scaleb(-decimals) for part in parts]


def written(value, currency):
    return f"{value:.{DECIMALS[currency]}f} {currency}"


class Sums:
    def __init__(self):
        self.groups = collections.defaultdict(lambda: {"purchases": 0, "paid": collections.defaultdict(decimal.Decimal), "home": decimal.Decimal(0)})

    def add(self, key, paid, home):
        group = self.groups[key]
        group["purchases"] += 1
        group["home"] += home
        for currency, value in paid.items():
            group["paid"][currency] += value

    def rows(self):
        return {key: (group["purchases"], [written(value, currency) for currency, value in sorted(group["paid"].items())],
                      written(group["home"], HOME)) for key, group in self.groups.items()}


def ask(program, kb, shelf, *command):
    done = subprocess.run([program, "--kb", kb, *command, "--shelf", shelf, "--format", "json"], capture_output=True, text=True)
    if done.returncode != 0:
        sys.exit(f"{' '.join(command)}: exit {done.returncode}\n{done.stdout[:2000]}{done.stderr[:2000]}")
    return json.loads(done.stdout)


def rows_of(groups, key):
    return {group[key]: (group["purchases"], group["paid"], group["at-home"]) for group in groups}


def check_ledger(shelf, ledger, wrong):
    total, sellers, years, months, things = Sums(), Sums(), Sums(), Sums(), Sums()
    currencies = collections.defaultdict(lambda: [0, decimal.Decimal(0), decimal.Decimal(0)])
    lines = {}
    for purchase in shelf.purchases:
        paid = collections.defaultdict(decimal.Decimal)
        home = decimal.Decimal(0)
        for outlay, currency, value in purchase["outlays"]:
            converted = shelf.at_home(currency, value, purchase["day"])
            paid[currency] += value
            home += converted
            row = currencies[currency]
            currencies[currency] = [row[0] + 1, row[1] + value, row[2] + converted]
            lines[(purchase["id"], outlay)] = (written(value, currency), written(converted, HOME))
        total.add("total", paid, home)
        sellers.add(purchase["seller"], paid, home)
        years.add(f"{purchase['day']:%Y}", paid, home)
        months.add(f"{purchase['day']:%Y-%m}", paid, home)
        if not purchase["pieces"]:
            things.add(purchase["id"], paid, home)
            continue
        weights = [share for _, share in purchase["pieces"]]
        homes = shared(home, weights, DECIMALS[HOME])
        shares = {currency: shared(value, weights, DECIMALS[currency]) for currency, value in paid.items()}
        for place, (piece, _) in enumerate(purchase["pieces"]):
            things.add(piece, {currency: parts[place] for currency, parts in shares.items()}, homes[place])
    pairs = [("total", total.rows()["total"], rows_of([{**ledger["total"], "of": "total"}], "of")["total"]),
             ("by-seller", sellers.rows(), rows_of(ledger["by-seller"], "seller")),
             ("by-year", years.rows(), rows_of(ledger["by-year"], "year")),
             ("by-month", months.rows(), rows_of(ledger["by-month"], "month")),
             ("by-piece", things.rows(), rows_of(ledger["by-piece"], "id")),
             ("lines", lines, {(line["purchase"], line["outlay"]): (line["paid"], line["at-home"]) for line in ledger["lines"]}),
             ("by-currency", {written(row[1], code): (row[0], written(row[2], HOME)) for code, row in currencies.items()},
              {row["paid"]: (row["amounts"], row["at-home"]) for row in ledger["by-currency"]})]
    compared = 0
    for name, mine, theirs in pairs:
        compared += len(mine)
        if mine != theirs:
            odd = [key for key in mine if theirs.get(key) != mine[key]] if isinstance(mine, dict) else ["total"]
            first = odd[0] if odd else "more than expected"
            wrong.append(f"{name}: {first}: expected {mine.get(first) if isinstance(mine, dict) else mine}, "
                         f"the program has {theirs.get(first) if isinstance(theirs, dict) else theirs}")
    return compared


def spread(prices):
    units = sorted(int(price.scaleb(DECIMALS[HOME])) for price in prices)
    quartiles = statistics.quantiles([fractions.Fraction(unit) for unit in units], n=4, method="inclusive") if len(units) > 1 else units * 3
    values = [units[0], *(round(quartile) for quartile in quartiles), units[-1]]  # round(Fraction) goes half to even
    return [len(units)] + [written(decimal.Decimal(value).scaleb(-DECIMALS[HOME]), HOME) for value in values]


def spread_of(row):
    return [row[key] for key in ("sales", "lowest", "lower-quartile", "median", "upper-quartile", "highest")]


def check_sales(shelf, answer, wrong):
    by = {"all": collections.defaultdict(list), "by-condition": collections.defaultdict(list),
          "by-completeness": collections.defaultdict(list), "by-quarter": collections.defaultdict(list)}
    for sale in shelf.sales:
        price = shelf.at_home(sale["currency"], sale["price"], sale["day"])
        by["all"]["all"].append(price)
        by["by-condition"][sale["condition"]].append(price)
        by["by-completeness"][sale["complete"]].append(price)
        by["by-quarter"][f"{sale['day'].year}-Q{(sale['day'].month + 2) // 3}"].append(price)
    [compared] = answer["currencies"]
    got = {"all": {"all": spread_of(compared["all"])},
           "by-condition": {row["of"]: spread_of(row) for row in compared["by-condition"]},
           "by-completeness": {row["of"]: spread_of(row) for row in compared["by-completeness"]},
           "by-quarter": {row["quarter"]: spread_of(row) for row in compared["by-quarter"]}}
    count = 0
    for name, groups in by.items():
        mine = {key: spread(prices) for key, prices in groups.items()}
        count += len(mine)
        if mine != got[name]:
            odd = next((key for key in mine if got[name].get(key) != mine[key]), "more than expected")
            wrong.append(f"{name} {odd}: expected {mine.get(odd)}, the program has {got[name].get(odd)}")
    return count


def main():
    program, kb = sys.argv[1:3]
    shelf = Shelf(random.Random(SEED))
    wrong = []
    with tempfile.TemporaryDirectory() as place:
        path = pathlib.Path(place) / "shelf.toml"
        path.write_text("\n".join(shelf.toml))
        totals = check_ledger(shelf, ask(program, kb, path, "ledger"), wrong)
        spreads = check_sales(shelf, ask(program, kb, path, "comparables", ISSUE), wrong)
    for line in wrong:
        print(line)
    print(f"money: {PURCHASES} purchases, {totals} lines and totals, {spreads} spreads of {len(shelf.sales)} sales; {len(wrong)} wrong (seed {SEED})")
    return 1 if wrong or totals < 20_000 or spreads < 40 else 0


if __name__ == "__main__":
    sys.exit(main())
