-- What the clients ask, in turn: verdicts with much and with little known, and what is in force.
local function read(path)
    local file = assert(io.open(path))
    local text = file:read("*a")
    file:close()
    return text
end

local sheet = { ["Content-Type"] = "text/plain" }
local json = { ["Content-Type"] = "application/json" }
local requests = {}
for _, name in ipairs({ "new-house", "long-wire", "jacket-not-known", "shop-on-a-feeder" }) do
    table.insert(requests, { "POST", "/api/verdict", sheet, read("shared/jobs/" .. name .. ".job") })
end
table.insert(requests, { "POST", "/api/verdict", json, '{"place": "osier", "application-date": "2024-03-01"}' })
table.insert(requests, { "GET", "/api/in-force?place=stonecroft&on=2026-04-20", nil, nil })
table.insert(requests, { "GET", "/", nil, nil })

local turn = 0
request = function()
    turn = turn % #requests + 1
    local one = requests[turn]
    return wrk.format(one[1], one[2], one[3], one[4])
end
